// The drawing with its live path, and wires put in and cut on it: by pointer
// (drag or tap), by keyboard, by touch.
import { html, nothing } from "lit";
import { cut, join, lay, layAnew } from "./act.js";
import { about } from "./findings-view.js";
import { mm, say } from "./habit.js";
import { Canvas } from "./sketch.js";
import { store } from "./store.js";
import { define, View } from "./view.js";

class DrawingView extends View {
  private canvas?: Canvas;
  private drawn?: unknown;
  private focused = 0;
  private fingers = new Map<number, { x: number; y: number }>();
  private moving = false;
  private chosenPart = "";
  private dragged?: { g: SVGGElement; part: string; x: number; y: number };
  private down?: { x: number; y: number; term: number; run: number; crowd: boolean; moved: boolean };

  render() {
    const s = this.state;
    const wire = s.loom?.runs?.[s.run];
    const term = s.loom?.terms?.[s.armed];
    return html`<section aria-labelledby="drawing-head">
      <h2 id="drawing-head">Drawing, seen from the solder side</h2>
      <div class="row-of" role="group" aria-label="Look at the drawing">
        <button @click=${() => this.canvas?.zoom(1.5)} aria-label="Nearer">+</button>
        <button @click=${() => this.canvas?.zoom(1 / 1.5)} aria-label="Farther">−</button>
        <button @click=${() => this.canvas?.fit()}>All of it</button>
        <button @click=${layAnew}>Lay out anew</button>
        <button aria-pressed=${this.moving} @click=${() => ((this.moving = !this.moving), store.set({ armed: -1, run: -1 }))}>Move parts</button>
      </div>
      ${this.moving ? this.movers() : nothing}
      <p class="do" role="status">${term ? html`A wire from <strong>${term.name}</strong>: now choose where it goes. <button @click=${() => store.set({ armed: -1 })}>Not now</button>`
        : wire ? html`<strong>${this.wireTitle()}</strong> ${s.findings.filter((d) => d.severity !== "info" && about(d)).map((d) => html`<span class="about">${d.severity === "error" ? "✗" : "!"} ${say(d.message)}</span>`)} <button class="cut" @click=${() => cut(s.run)}>Cut this wire</button> <button @click=${() => store.set({ run: -1 })}>Leave it</button>`
        : this.moving ? "Drag a part to where it lies in your guitar, or choose it above and nudge it."
        : html`Tap or drag from a terminal to another one: that is a wire. Tap a wire to choose it. <span class="by-keys">With keys: arrows, Enter, W for its wires, Delete.</span>`}</p>
      ${s.sketch && s.sketched !== s.text ? html`<p class="stale">Drawing it again …</p>` : nothing}
      <div class="paper" @pointerdown=${this.pressed} @pointermove=${this.moved} @pointerup=${this.released} @pointercancel=${this.lost} ?data-moving=${this.moving}
        @wheel=${this.wheeled} @keydown=${this.keys}></div>
      ${s.sketch?.svg ? nothing : html`<p class="wait">${s.sketch ? "This loom cannot be drawn: see the findings." : "Drawing …"}</p>`}
      ${(s.sketch?.findings ?? []).filter((d) => d.severity !== "info").map((d) => html`<p class="foot">! ${say(d.message)}</p>`)}
    </section>`;
  }

  private movers() {
    const parts = this.state.loom?.parts ?? [];
    const part = parts.some((p) => p.name === this.chosenPart) ? this.chosenPart : (parts[0]?.name ?? "");
    const nudge = (word: string, label: string, x: number, y: number, turn = 0) =>
      html`<button aria-label=${label} @click=${() => lay(part, { x, y, turn })}>${word}</button>`;
    return html`<div class="row-of" role="group" aria-label="Move a part">
      <label>Part <select @change=${(e: Event) => ((this.chosenPart = (e.target as HTMLSelectElement).value), this.requestUpdate())}>
        ${parts.map((p) => html`<option ?selected=${p.name === part}>${p.name}</option>`)}</select></label>
      ${nudge("←", `${mm(5)} to the left`, -5, 0)}${nudge("↑", `${mm(5)} up`, 0, -5)}${nudge("↓", `${mm(5)} down`, 0, 5)}${nudge("→", `${mm(5)} to the right`, 5, 0)}
      ${nudge("↻", "A quarter turn", 0, 0, 1)}
      <button @click=${() => lay(part)}>Let the layout decide</button></div>`;
  }

  /** grab takes hold of the part under the pointer. */
  private grab(e: PointerEvent): void {
    const g = (e.target as Element).closest<SVGGElement>(".part[data-part]");
    if (!g || !this.canvas || !this.state.sketch?.places?.[g.dataset.part!]) return;
    const p = this.canvas.point(e.clientX, e.clientY);
    this.dragged = { g, part: g.dataset.part!, x: p.x, y: p.y };
    (e.currentTarget as HTMLElement).setPointerCapture(e.pointerId);
  }

  private drop(e: PointerEvent): void {
    const d = this.dragged!;
    const p = this.canvas!.point(e.clientX, e.clientY);
    this.dragged = undefined;
    this.chosenPart = d.part;
    if (Math.hypot(p.x - d.x, p.y - d.y) > 1) void lay(d.part, { x: p.x - d.x, y: p.y - d.y, turn: 0 });
    else d.g.removeAttribute("transform");
  }

  protected updated(): void {
    const s = this.state;
    if (s.sketch && s.sketch !== this.drawn) {
      this.drawn = s.sketch;
      const look = this.canvas?.zoomed ? this.canvas.viewed : undefined;
      const hadFocus = this.contains(document.activeElement) && document.activeElement instanceof SVGElement;
      this.canvas = s.sketch.svg ? new Canvas(this.querySelector(".paper")!, s.sketch.svg, s.sketch.spots ?? []) : undefined;
      if (look) this.canvas?.look(look);
      this.mark();
      if (hadFocus) this.canvas?.term(this.focused)?.focus();
    } else this.mark();
  }

  private mark(): void {
    const s = this.state;
    const row = s.loom?.settings?.[s.chosen];
    this.canvas?.mark({ live: row?.output === "sounding" && s.sketched === s.text ? new Set(row.liveRuns ?? []) : undefined,
      run: s.run, armed: s.armed, focus: this.focused });
  }

  private wireTitle(): string {
    return this.canvas?.wires(this.state.run)[0]?.getAttribute("aria-label") ?? "This wire";
  }

  private pressed(e: PointerEvent): void {
    this.fingers.set(e.pointerId, { x: e.clientX, y: e.clientY });
    if (!this.canvas || this.fingers.size > 1 || e.button > 0) {
      this.down = undefined;
      return;
    }
    if (this.moving) {
      this.grab(e);
      return;
    }
    this.down = { x: e.clientX, y: e.clientY, ...this.canvas.hit(e.clientX, e.clientY), moved: false };
    if (this.down.term >= 0 || this.canvas.zoomed) (e.currentTarget as HTMLElement).setPointerCapture(e.pointerId);
  }

  private moved(e: PointerEvent): void {
    const was = this.fingers.get(e.pointerId);
    if (!was || !this.canvas) return;
    if (this.fingers.size === 2) this.pinch(e);
    this.fingers.set(e.pointerId, { x: e.clientX, y: e.clientY });
    if (this.dragged) {
      const p = this.canvas.point(e.clientX, e.clientY);
      this.dragged.g.setAttribute("transform", `translate(${p.x - this.dragged.x} ${p.y - this.dragged.y})`);
    }
    if (!this.down) return;
    this.down.moved ||= Math.hypot(e.clientX - this.down.x, e.clientY - this.down.y) > 8;
    if (!this.down.moved) return;
    if (this.down.term >= 0) this.canvas.thread(this.down.term, e.clientX, e.clientY);
    else if (this.canvas.zoomed) this.canvas.pan(e.clientX - was.x, e.clientY - was.y);
  }

  private pinch(e: PointerEvent): void {
    const [a, b] = [...this.fingers.values()];
    const other = this.fingers.get(e.pointerId) === a ? b : a;
    const before = Math.hypot(a.x - b.x, a.y - b.y), after = Math.hypot(e.clientX - other.x, e.clientY - other.y);
    const mid = this.canvas!.point((e.clientX + other.x) / 2, (e.clientY + other.y) / 2);
    this.canvas!.zoom(after / Math.max(before, 1), mid.x, mid.y);
  }

  private released(e: PointerEvent): void {
    this.fingers.delete(e.pointerId);
    if (this.dragged && this.canvas) {
      this.drop(e);
      return;
    }
    const d = this.down;
    this.down = undefined;
    this.canvas?.unthread();
    if (!d || !this.canvas) return;
    if (d.moved) {
      const to = d.term >= 0 ? this.canvas.hit(e.clientX, e.clientY).term : -1;
      if (to >= 0) void join(d.term, to);
      return;
    }
    if (d.term >= 0 && d.crowd && e.pointerType === "touch" && !this.canvas.zoomed) {
      const p = this.canvas.point(e.clientX, e.clientY);
      this.canvas.zoom(4, p.x, p.y);
      store.set({ says: "nearer: tap the terminal again" });
    } else if (d.term >= 0) this.tap(d.term);
    else store.set({ armed: -1, run: d.run === this.state.run ? -1 : d.run });
  }

  private lost(e: PointerEvent): void {
    this.fingers.delete(e.pointerId);
    this.dragged?.g.removeAttribute("transform");
    this.down = this.dragged = undefined;
    this.canvas?.unthread();
  }

  private tap(term: number): void {
    const { armed } = this.state;
    this.focused = term;
    if (armed === term) store.set({ armed: -1 });
    else if (armed >= 0) void join(armed, term);
    else store.set({ armed: term, run: -1 });
  }

  private wheeled(e: WheelEvent): void {
    if (!e.ctrlKey || !this.canvas) return;
    e.preventDefault();
    const p = this.canvas.point(e.clientX, e.clientY);
    this.canvas.zoom(Math.exp(-e.deltaY / 200), p.x, p.y);
  }

  private keys(e: KeyboardEvent): void {
    const on = (e.target as Element).closest<SVGGElement>("[data-term], .wire[data-run]");
    if (!on || !this.canvas || e.ctrlKey || e.metaKey) return;
    const step: Record<string, [number, number]> = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };
    if (step[e.key]) this.go(this.canvas.toward(this.focused, ...step[e.key]));
    else if (e.key === "Enter" || e.key === " ") {
      if (on.dataset.term !== undefined) this.tap(Number(on.dataset.term));
    } else if (e.key === "w" || e.key === "W") this.nextWire();
    else if (e.key === "Escape") store.set({ armed: -1, run: -1 });
    else if ((e.key === "Delete" || e.key === "Backspace") && this.state.run >= 0) void cut(this.state.run);
    else return;
    e.preventDefault();
  }

  private go(term: number): void {
    this.focused = term;
    this.mark();
    this.canvas?.term(term)?.focus();
    const t = this.state.loom?.terms?.[term];
    if (t) store.set({ says: this.canvas?.term(term)?.getAttribute("aria-label") ?? t.name });
  }

  /** nextWire chooses the next wire at the terminal under the keys. */
  private nextWire(): void {
    const runs = this.state.loom?.runs ?? [];
    const here = runs.map((r, i) => (r.a === this.focused || r.b === this.focused ? i : -1)).filter((i) => i >= 0);
    if (here.length === 0) {
      store.set({ says: "no wire here", run: -1 });
      return;
    }
    const run = here[(here.indexOf(this.state.run) + 1) % here.length];
    store.set({ run, armed: -1, says: this.canvas?.wires(run)[0]?.getAttribute("aria-label") ?? "" });
  }
}

define("lw-drawing", DrawingView);
