// The readings at the end of a stage of work: what the meter should show of the
// half-built loom, a place to type what it shows, and whether that is right or
// what it points to. What was typed survives a reload.
import { html, nothing } from "lit";
import { ask, failed } from "./core.js";
import { say } from "./habit.js";
import { Canvas } from "./sketch.js";
import { store } from "./store.js";
import { define, View } from "./view.js";
import type { StageCheck, StageLine } from "./types.gen.js";

const key = (stage: number) => `loomwright/stages/${store.state.name}/${store.state.loom?.title ?? ""}/${stage}`;

function typed(stage: number): Record<string, string> {
  try {
    const kept = JSON.parse(localStorage.getItem(key(stage)) ?? "{}");
    return kept && typeof kept === "object" ? kept : {};
  } catch {
    return {};
  }
}

const signs: Record<string, [string, string]> = { yes: ["✓", "as it should be"], no: ["✗", "not what a right loom shows"] };

class Stage extends View {
  static properties = { stage: { type: Number } };
  declare stage: number;
  private check?: StageCheck;
  private asked = "";
  private trouble = "";
  private shown = 0; // reading, or below zero suspect −1−i, in the drawing
  private canvas?: Canvas;
  private drawn?: unknown;

  render() {
    const c = this.check;
    if (this.trouble) return html`<p class="trouble" role="alert">${this.trouble}</p>`;
    if (!c) return html`<p role="status">Working out what the meter should show now …</p>`;
    const list = c.readings ?? [];
    if (list.length === 0) return html`<h1 class="order">${say(c.stage)}: done</h1><p>No reading can show more yet. Look at each joint: smooth, shiny or evenly grey, wire and lug both wetted, no whisker.</p>`;
    return html`<h1 class="order">Before you go on: the meter</h1>
      <p>${say(c.stage)}, as far as it is soldered. Right readings here mean that no fault of this stage is carried on.</p>
      <details><summary>Before any reading</summary><ul>${(c.before ?? []).map((b) => html`<li>${say(b)}</li>`)}</ul></details>
      <ol class="readings">${list.map((l, i) => this.line(l, i))}</ol>
      <p class="say" role="status">${say(c.says)}</p>
      ${(c.suspects ?? []).length ? html`<p class="group-name">It points to, likeliest first:</p><ol class="suspects">${c.suspects!.map((x, i) => html`<li>
        <button aria-pressed=${this.shown === -1 - i} @click=${() => this.show(-1 - i)}>${(x.faults ?? []).map(say).join(", or ")}</button>
        ${this.shown === -1 - i ? html`<br>${(x.do ?? []).map(say).join(" ")}` : nothing}</li>`)}</ol>` : nothing}
      ${(c.do ?? []).length ? html`<ul>${c.do!.map((d) => html`<li>${say(d)}</li>`)}</ul>` : nothing}
      <div class="paper close"></div>`;
  }

  private line(l: StageLine, i: number) {
    const [sign, word] = signs[l.met ?? ""] ?? ["", ""];
    const id = `reading-${i}`;
    return html`<li class=${l.met ?? ""}><p id=${id}>${say(l.do)}</p>
      <p class="right">Right: <strong>${say(l.right)}</strong></p>
      ${l.answers?.length ? html`<div class="chips" role="group" aria-labelledby=${id}>${l.answers.map((a) => html`<button aria-pressed=${l.said === a} @click=${() => this.say(l.key, a)}>${a}</button>`)}</div>`
        : html`<div class="row-of"><label>Yours shows <input autocomplete="off" autocapitalize="off" spellcheck="false" aria-describedby=${id} .value=${l.said ?? ""}
          @focus=${() => this.show(i)} @change=${(e: Event) => this.say(l.key, (e.target as HTMLInputElement).value)}></label>
          <button @click=${() => this.say(l.key, openWord(l))}>${l.range ? `More than ${l.range}` : "No path"}</button>
          ${l.range ? html`<button @click=${() => this.say(l.key, "OL")}>No path on any range</button>` : nothing}</div>`}
      ${l.wrong ? html`<p class="trouble" role="alert">${l.wrong}</p>` : nothing}
      ${sign ? html`<p class="verdict"><span aria-hidden="true">${sign}</span> ${word}</p>` : nothing}</li>`;
  }

  private show(what: number): void {
    this.shown = this.shown === what && what < 0 ? 0 : what;
    this.requestUpdate();
  }

  private say(reading: string, said: string): void {
    const all = typed(this.stage);
    if (said.trim()) all[reading] = said.trim();
    else delete all[reading];
    try {
      localStorage.setItem(key(this.stage), JSON.stringify(all));
    } catch {
      // storage is full: the reading is judged all the same
    }
    void this.judge(all);
  }

  private async judge(all = typed(this.stage)): Promise<void> {
    const { name, text } = store.state;
    const answers = Object.entries(all).map(([ask, said]) => ({ ask, said }));
    const c = await ask<StageCheck>("search", "stage", { name, text, run: this.stage, state: { answers } }, "stage");
    if (!c) return;
    this.trouble = failed(c) ? c.error : "";
    this.check = failed(c) ? undefined : c;
    if (this.check?.suspects?.length) this.shown = -1;
    this.requestUpdate();
  }

  protected updated(): void {
    const s = this.state;
    const now = JSON.stringify([this.stage, s.text]);
    if (now !== this.asked) {
      this.asked = now;
      this.check = undefined;
      this.shown = 0;
      void this.judge();
      return;
    }
    this.draw();
  }

  private draw(): void {
    const s = this.state, c = this.check;
    const paper = this.querySelector<HTMLElement>(".paper");
    if (!paper || !c || !s.sketch?.svg) return;
    if (this.drawn !== s.sketch || this.canvas?.host !== paper) {
      this.drawn = s.sketch;
      this.canvas = new Canvas(paper, s.sketch.svg, s.sketch.spots ?? [], true);
    }
    const suspect = this.shown < 0 ? c.suspects?.[-1 - this.shown] : undefined;
    const reading = suspect ? undefined : c.readings?.[this.shown];
    this.canvas.svg.setAttribute("aria-label", suspect ? "Where the suspect is" : "Where the probes go");
    this.canvas.mark({ live: suspect?.runs?.length ? new Set(suspect.runs) : undefined, run: -1, armed: -1, focus: -1 });
    const rings: [number, string][] = suspect ? (suspect.terms ?? []).map((t) => [t, "?"]) : reading ? [[reading.redTerm, "red"], [reading.blackTerm, "black"]] : [];
    this.canvas.ring(rings);
    this.canvas.near(rings.map(([t]) => t), 20);
  }
}

/** openWord is what a meter's sign for too much means on the range that a reading asks for. */
const openWord = (l: StageLine) => (l.range ? `OL on ${l.range.replace(/[ Ω]/g, "")}` : "OL");

define("lw-stage", Stage);
