// Finding what is wrong with a soldered loom: a reading at a time, suspects lit
// in the drawing. What was read survives a reload.
import { html, nothing } from "lit";
import { ask, failed, stop } from "./core.js";
import { say } from "./habit.js";
import { Canvas } from "./sketch.js";
import { store } from "./store.js";
import { define, View } from "./view.js";
import type { DiagnosisState, DiagnosisSuspect, Judged } from "./types.gen.js";

const empty: DiagnosisState = { answers: [] };
const key = (name: string) => "loomwright/readings/" + name;

class Fault extends View {
  private begun = false;
  private outside = false;
  private seen: DiagnosisState = empty;
  private judged?: Judged;
  private trouble = "";
  private busy = false;
  private said = "";
  private shown = 0; // suspect in the drawing; −1: the probes
  private canvas?: Canvas;
  private drawn?: unknown;

  connectedCallback(): void {
    super.connectedCallback();
    try {
      const kept = JSON.parse(localStorage.getItem(key(store.state.name)) ?? "null");
      if (kept && Array.isArray(kept.answers) && kept.answers.length) {
        this.seen = kept;
        this.begun = true;
        void this.judge();
      }
    } catch {
      this.seen = empty;
    }
  }

  render() {
    const j = this.judged;
    if (!this.begun) return html`<section aria-labelledby="fault-head"><h2 id="fault-head">Find what is wrong with a soldered loom</h2>
      <p>A reading at a time: what you read off rules out what cannot be, until the bad joint is found or the loom is proved right.</p>
      <div class="row-of"><button @click=${() => this.start(false)}>Begin, the cavity is open</button><button @click=${() => this.start(true)}>Begin, the guitar is closed</button></div></section>`;
    return html`<section aria-labelledby="fault-head"><h2 id="fault-head">Find what is wrong with a soldered loom</h2>
      ${this.trouble ? html`<p class="trouble" role="alert">${this.trouble}</p>` : nothing}
      ${this.busy ? html`<p role="status">Working out what every fault would show … <button @click=${this.cancel}>Stop</button></p>` : nothing}
      ${j ? this.standing(j) : nothing}
      <div class="paper" ?hidden=${!j}></div>
      <div class="row-of"><button @click=${this.afresh}>Begin again</button></div></section>`;
  }

  private standing(j: Judged) {
    return html`
      ${this.seen.answers?.length ? nothing : html`<ul>${(j.before ?? []).map((b) => html`<li>${say(b)}</li>`)}</ul>${this.symptoms(j)}`}
      <p class="say" role="status">${say(j.says)}</p>
      ${j.next ? this.question(j) : nothing}
      ${(j.do ?? []).length ? html`<ul>${j.do!.map((d) => html`<li>${say(d)}</li>`)}</ul>` : nothing}
      ${(j.suspects ?? []).length && this.seen.answers?.length ? html`<p class="group-name">Suspects, likeliest first: ${j.left} explain everything so far</p>
        <ol class="suspects">${j.suspects!.slice(0, 6).map((s, i) => this.suspect(s, i))}</ol>` : nothing}
      ${this.taken()}`;
  }

  private question(j: Judged) {
    const n = j.next!;
    return html`<div class="now"><h2>Next reading</h2><p class="say">${say(n.do)}</p>${n.why ? html`<p class="foot">${n.why}</p>` : nothing}
      ${n.answers?.length ? html`<div class="chips">${n.answers.map((a) => html`<button @click=${() => this.answer(n.key, a)}>${a}</button>`)}</div>`
        : html`<div class="row-of"><label>The meter shows <input autocomplete="off" spellcheck="false" .value=${this.said}
            @input=${(e: Event) => (this.said = (e.target as HTMLInputElement).value)} @keydown=${(e: KeyboardEvent) => e.key === "Enter" && this.answer(n.key, this.said)}></label>
          <button @click=${() => this.answer(n.key, this.said)}>That is it</button>
          ${n.range ? html`<button @click=${() => this.answer(n.key, `OL on ${n.range!.replace(/[ Ω]/g, "")}`)}>More than ${n.range}</button> <button @click=${() => this.answer(n.key, "OL")}>No path on any range</button>` : nothing}</div>`}
      <div class="row-of"><button @click=${() => this.set({ ...this.seen, skip: [...(this.seen.skip ?? []), n.key] })}>This cannot be read here</button></div></div>`;
  }

  private suspect(s: DiagnosisSuspect, i: number) {
    const words = (s.faults ?? []).join(", or ") || "nothing is wrong";
    return html`<li><button aria-pressed=${this.shown === i} @click=${() => ((this.shown = this.shown === i ? -1 : i), this.requestUpdate())}>${say(words)}</button>
      <span class="where">${Math.round(s.chance * 100)} in 100</span>${this.shown === i ? html`<br>${say((s.do ?? []).join(" "))}` : nothing}</li>`;
  }

  private symptoms(j: Judged) {
    const on = new Set((this.seen.symptoms ?? []).map((s) => s.kind));
    return html`<details><summary>What does the player notice?</summary><div class="chips">${(j.kinds ?? []).map((k) => html`<button aria-pressed=${on.has(k[0])}
      @click=${() => this.set({ ...this.seen, symptoms: on.has(k[0]) ? (this.seen.symptoms ?? []).filter((s) => s.kind !== k[0]) : [...(this.seen.symptoms ?? []), { kind: k[0] }] })}>${k[1]}</button>`)}</div></details>`;
  }

  private taken() {
    const list = this.seen.answers ?? [];
    return list.length === 0 ? nothing : html`<details><summary>${list.length} taken so far</summary><ul class="plain">${list.map((a) => html`<li>${a.ask}: <strong>${a.said}</strong>
      <button aria-label=${`Take back ${a.ask}`} @click=${() => this.set({ ...this.seen, answers: list.filter((b) => b !== a) })}>Take back</button></li>`)}</ul></details>`;
  }

  protected updated(): void {
    const s = this.state;
    const paper = this.querySelector<HTMLElement>(".paper");
    if (!paper || !s.sketch?.svg || !this.judged) return;
    if (this.drawn !== s.sketch || this.canvas?.host !== paper) {
      this.drawn = s.sketch;
      this.canvas = new Canvas(paper, s.sketch.svg, s.sketch.spots ?? [], true);
    }
    const suspect = this.seen.answers?.length ? this.judged.suspects?.[this.shown] : undefined;
    const n = this.judged.next;
    const probes: [number, string][] = n ? [[n.redTerm, "red"], [n.blackTerm, "black"]] : [];
    this.canvas.mark({ live: suspect?.runs?.length ? new Set(suspect.runs) : undefined, run: -1, armed: -1, focus: -1 });
    this.canvas.ring(suspect ? [...(suspect.terms ?? []).map((t): [number, string] => [t, "?"]), ...probes] : probes);
  }

  private start(outside: boolean): void {
    this.begun = true;
    this.outside = outside;
    void this.judge();
  }

  private answer(reading: string, said: string): void {
    if (!said.trim()) return;
    const answers = (this.seen.answers ?? []).filter((a) => a.ask !== reading);
    this.set({ ...this.seen, answers: [...answers, { ask: reading, said: said.trim() }] });
  }

  private set(next: DiagnosisState): void {
    void this.judge(next);
  }

  /** judge asks what a state means, and keeps it where it can be understood. */
  private async judge(next = this.seen): Promise<void> {
    const { name, text } = store.state;
    this.busy = true;
    this.requestUpdate();
    const j = await ask<Judged>("search", "judge", { name, text, outside: this.outside, state: next }, "judge");
    this.busy = false;
    if (j && failed(j)) this.trouble = j.error;
    else if (j) {
      this.trouble = "";
      this.said = "";
      this.judged = j;
      this.seen = next;
      this.shown = j.next ? -1 : 0;
      try {
        localStorage.setItem(key(name), JSON.stringify(next));
      } catch {
        // storage is full: the readings still stand here
      }
    }
    this.requestUpdate();
  }

  private cancel(): void {
    stop("search");
    this.begun = !!this.judged;
    this.requestUpdate();
  }

  private afresh(): void {
    localStorage.removeItem(key(store.state.name));
    this.seen = empty;
    this.judged = undefined;
    this.begun = false;
    this.trouble = "";
    this.requestUpdate();
  }
}

define("lw-fault", Fault);
