// The drawing's SVG in the page: names for ears, marks for what is chosen, and
// what lies under a finger.
export interface Hit {
  term: number; // −1: none
  run: number; // −1: none
  crowd: boolean; // several terminals lie within a finger's reach
}

export class Canvas {
  readonly svg: SVGSVGElement;
  private readonly whole: { w: number; h: number };
  private at: { x: number; y: number; w: number; h: number };

  constructor(readonly host: HTMLElement, source: string, private readonly spots: (number[] | null)[], private readonly picture = false) {
    // Our own painter's text: every title in it is escaped.
    host.innerHTML = source;
    this.svg = host.querySelector("svg")!;
    const b = this.svg.viewBox.baseVal;
    this.whole = { w: b.width, h: b.height };
    this.at = { x: 0, y: 0, ...this.whole };
    this.svg.removeAttribute("width");
    this.svg.removeAttribute("height");
    this.svg.removeAttribute("aria-describedby");
    this.svg.setAttribute("role", picture ? "img" : "group");
    for (const g of this.svg.querySelectorAll<SVGGElement>("g[role]")) picture ? g.removeAttribute("role") : name(g);
  }

  get viewed(): { x: number; y: number; w: number; h: number } {
    return this.at;
  }
  get zoomed(): boolean {
    return this.at.w < this.whole.w * 0.99;
  }

  term(i: number): SVGGElement | null {
    return this.svg.querySelector(`[data-term="${i}"]`);
  }
  wires(run: number): SVGGElement[] {
    return [...this.svg.querySelectorAll<SVGGElement>(`.wire[data-run="${run}"]`)];
  }

  mark(state: { live?: Set<number>; run: number; armed: number; focus: number }): void {
    this.svg.classList.toggle("lit", !!state.live);
    for (const g of this.svg.querySelectorAll<SVGGElement>("[data-run]")) {
      const run = Number(g.dataset.run);
      g.classList.toggle("live", !!state.live?.has(run));
      g.classList.toggle("chosen", run === state.run);
      if (g.getAttribute("role") === "button") g.setAttribute("aria-pressed", String(run === state.run));
    }
    if (this.picture) return;
    for (const g of this.svg.querySelectorAll<SVGGElement>("[data-term]")) {
      const t = Number(g.dataset.term);
      g.classList.toggle("armed", t === state.armed);
      g.setAttribute("aria-pressed", String(t === state.armed));
      g.setAttribute("tabindex", t === state.focus ? "0" : "-1");
    }
    this.rings(state);
  }

  /** rings marks terminals by a ring, which shows without colour. */
  private rings(state: { armed: number; focus: number }): void {
    this.svg.querySelector(".rings")?.remove();
    const ring = make("g", { class: "rings", "aria-hidden": "true" });
    for (const [kind, t] of [["armed", state.armed], ["focus", state.focus]] as const) {
      const s = this.spots[t];
      if (s) ring.append(make("circle", { class: kind, cx: String(s[0]), cy: String(s[1]), r: kind === "armed" ? "3.4" : "4.4" }));
    }
    this.loom?.append(ring);
  }

  private get loom(): SVGGElement | null {
    return this.svg.querySelector<SVGGElement>("[id$=loom]");
  }

  /** tip is where a run meets a terminal, mm: on a wide one, such as a case, where its wire ends. */
  tip(run: number, term: number): number[] | undefined {
    const s = this.spots[term];
    if (!s) return undefined;
    const paths = this.wires(run).flatMap((g) => [...g.querySelectorAll<SVGPathElement>(":scope > path")]);
    const ends = paths.flatMap((p) => [p.getPointAtLength(0), p.getPointAtLength(p.getTotalLength())]).map((p) => ({ p, d: Math.hypot(p.x - s[0], p.y - s[1]) }));
    const near = ends.sort((a, b) => a.d - b.d)[0];
    return near && near.d > 2.5 && near.d < 14 ? [near.p.x, near.p.y] : s;
  }

  /** ring marks terminals, or places in mm, with a word beside each. */
  ring(marks: [number | number[] | undefined, string][]): void {
    this.svg.querySelector(".rings")?.remove();
    const out = make("g", { class: "rings" });
    for (const [t, word] of marks) {
      const s = typeof t === "number" ? this.spots[t] : t;
      if (!s) continue;
      const text = make("text", { x: String(s[0] + 5), y: String(s[1] - 4) });
      text.textContent = word;
      out.append(make("circle", { class: "armed", cx: String(s[0]), cy: String(s[1]), r: "4" }), text);
    }
    this.loom?.append(out);
  }

  /** screen is where a terminal is on the screen, in px. */
  screen(t: number): DOMPoint | undefined {
    const s = this.spots[t];
    const m = this.loom?.getScreenCTM();
    return s && m ? new DOMPoint(s[0], s[1]).matrixTransform(m) : undefined;
  }

  /** hit finds the terminal within a finger's reach, or else a wire. */
  hit(x: number, y: number, reach = 22): Hit {
    let term = -1, best = reach, near = 0;
    for (let i = 0; i < this.spots.length; i++) {
      const p = this.screen(i);
      const d = p ? Math.hypot(p.x - x, p.y - y) : Infinity;
      if (d < reach) near++;
      if (d < best) [term, best] = [i, d];
    }
    let run = -1;
    for (const r of [0, 5, 10, 14]) {
      for (let k = 0; k < (r ? 8 : 1) && run < 0; k++) {
        const under = document.elementFromPoint(x + r * Math.cos((k * Math.PI) / 4), y + r * Math.sin((k * Math.PI) / 4));
        const g = under?.closest<SVGGElement>(".wire[data-run]");
        if (g && this.svg.contains(g)) {
          run = Number(g.dataset.run);
          if (best > Math.max(r, 6)) term = -1; // the wire is nearer
        }
      }
      if (run >= 0) break;
    }
    return term >= 0 ? { term, run: -1, crowd: near > 1 } : { term: -1, run, crowd: false };
  }

  /** toward is the nearest terminal in a direction. */
  toward(from: number, dx: number, dy: number): number {
    const a = this.spots[from];
    if (!a) return this.spots.findIndex((s) => s);
    let best = from, least = Infinity;
    this.spots.forEach((s, i) => {
      if (!s || i === from) return;
      const along = (s[0] - a[0]) * dx + (s[1] - a[1]) * dy;
      const across = Math.abs((s[0] - a[0]) * dy) + Math.abs((s[1] - a[1]) * dx);
      const cost = along + 3 * across;
      if (along > 0.05 && across <= along * 3 + 2 && cost < least) [best, least] = [i, cost];
    });
    return best;
  }

  zoom(factor: number, cx = this.at.x + this.at.w / 2, cy = this.at.y + this.at.h / 2): void {
    const w = Math.min(this.whole.w, Math.max(30, this.at.w / factor));
    const k = w / this.at.w;
    this.look({ x: cx - (cx - this.at.x) * k, y: cy - (cy - this.at.y) * k, w, h: this.at.h * k });
  }
  pan(dx: number, dy: number): void {
    const box = this.svg.getBoundingClientRect();
    const k = Math.max(this.at.w / box.width, this.at.h / box.height);
    this.look({ ...this.at, x: this.at.x - dx * k, y: this.at.y - dy * k });
  }
  fit(): void {
    this.look({ x: 0, y: 0, ...this.whole });
  }
  look(at: { x: number; y: number; w: number; h: number }): void {
    const [w, h] = [Math.min(at.w, this.whole.w), Math.min(at.h, this.whole.h)];
    this.at = { w, h, x: Math.min(Math.max(at.x, 0), this.whole.w - w), y: Math.min(Math.max(at.y, 0), this.whole.h - h) };
    this.svg.setAttribute("viewBox", `${this.at.x} ${this.at.y} ${this.at.w} ${this.at.h}`);
  }

  /** point is a place on the screen in mm of the page. */
  point(x: number, y: number): DOMPoint {
    return new DOMPoint(x, y).matrixTransform(this.svg.getScreenCTM()!.inverse());
  }

  /** closeUp looks at the wires of a run, with room around. */
  closeUp(run: number): void {
    const boxes = this.wires(run).map((g) => ({ b: g.getBBox(), m: this.loom?.transform.baseVal.consolidate()?.matrix }));
    if (boxes.length === 0) return;
    const e = boxes[0].m?.e ?? 0, f = boxes[0].m?.f ?? 0;
    const x = Math.min(...boxes.map((o) => o.b.x)) + e, y = Math.min(...boxes.map((o) => o.b.y)) + f;
    const x2 = Math.max(...boxes.map((o) => o.b.x + o.b.width)) + e, y2 = Math.max(...boxes.map((o) => o.b.y + o.b.height)) + f;
    const screen = this.svg.getBoundingClientRect();
    const shape = screen.width / Math.max(screen.height, 1);
    const w = Math.max(x2 - x + 24, (y2 - y + 24) * shape, 50);
    this.look({ w, h: w / shape, x: (x + x2) / 2 - w / 2, y: (y + y2) / 2 - w / shape / 2 });
  }

  /** around looks at a place in mm, with mm of room on each side. */
  around(s: number[] | undefined, room: number): void {
    if (!s) return;
    const m = this.loom?.transform.baseVal.consolidate()?.matrix;
    this.look({ x: s[0] + (m?.e ?? 0) - room, y: s[1] + (m?.f ?? 0) - room, w: 2 * room, h: 2 * room });
  }

  /** near looks at some terminals together, with mm of room around; at all of the drawing where there are none. */
  near(terms: number[], room: number): void {
    const m = this.loom?.transform.baseVal.consolidate()?.matrix;
    const at = terms.map((t) => this.spots[t]).filter((s): s is number[] => !!s);
    if (at.length === 0) return this.fit();
    const x = at.map((s) => s[0] + (m?.e ?? 0)), y = at.map((s) => s[1] + (m?.f ?? 0));
    const [left, top] = [Math.min(...x) - room, Math.min(...y) - room];
    this.look({ x: left, y: top, w: Math.max(...x) + room - left, h: Math.max(...y) + room - top });
  }

  thread(from: number, x: number, y: number): void {
    this.svg.querySelector(".thread-to")?.remove();
    const p = this.screen(from);
    if (!p) return;
    const a = this.point(p.x, p.y), b = this.point(x, y);
    this.svg.append(make("path", { class: "thread-to", d: `M${a.x} ${a.y}L${b.x} ${b.y}` }));
  }
  unthread(): void {
    this.svg.querySelector(".thread-to")?.remove();
  }
}

function make(tag: string, attributes: Record<string, string>): SVGElement {
  const e = document.createElementNS("http://www.w3.org/2000/svg", tag);
  for (const [k, v] of Object.entries(attributes)) e.setAttribute(k, v);
  return e;
}

/** name gives a group of the drawing a role that ears know. */
function name(g: SVGGElement): void {
  const title = g.querySelector(":scope > title")?.textContent ?? "";
  if (g.dataset.term !== undefined) g.setAttribute("role", "button");
  else if (g.classList.contains("wire") && g.dataset.run !== undefined && !g.parentElement!.closest(".wire")) { // inside another: the other half of a twisted pair, whose own ends are buttons
    g.setAttribute("role", "button");
    g.setAttribute("tabindex", "-1");
  } else g.setAttribute("role", g.classList.contains("part") ? "group" : "presentation");
  if (title && g.getAttribute("role") !== "presentation") g.setAttribute("aria-label", title);
}
