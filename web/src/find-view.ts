// Finding a wiring for what is wanted: progress, cancel, and where it cannot be
// done the reason, each way out a button.
import { html, nothing } from "lit";
import { exchange, giveUp, wired } from "./act.js";
import { ask, failed, stop } from "./core.js";
import { keptDraft } from "./plan.js";
import { store } from "./store.js";
import { define, View } from "./view.js";
import type { Found, SynthesisProgress, SynthesisWhy, SynthesisWish } from "./types.gen.js";

/** use takes a wiring, and shows it on the bench. */
function use(text: string): void {
  wired(text);
  store.set({ mode: "bench", panel: "table" });
}

/** crowded is how many wires a lug may take; 0: three, and more only where it must be. */
const crowded = [0, 2, 3, 4];

class Find extends View {
  private searching = "";
  private progress?: SynthesisProgress;
  private found?: Found;
  private of = ""; // the text that was searched
  private hum = false;
  private hanging = false;
  private lugs = 0;
  private trouble = "";

  render() {
    const s = this.state;
    if (!s.readable || !(s.loom?.settings ?? []).some((r) => r.wanted)) return nothing;
    const missed = (s.loom?.settings ?? []).filter((r) => r.wanted?.met === "no").length;
    return html`<section aria-labelledby="find-head"><h2 id="find-head">Find wiring</h2>
      ${this.searching ? html`<p role="status">Searching … ${this.progress ? `${this.progress.stage}${this.progress.joins ? `, ${this.progress.joins} joins so far` : ""}` : ""}</p>
          <button class="stop" @click=${this.cancel}>Stop the search</button>`
        : html`<p>${missed ? `${missed} wanted ${missed === 1 ? "sound is" : "sounds are"} not heard yet.` : "Every wanted sound is heard."} The search finds the fewest wires that make them all.</p>
          <div class="row-of"><button class=${missed && !(this.found?.wirings?.length && this.of === s.text) ? "search main" : "search"} @click=${this.search}>Find wiring</button>
          <label class="check"><input type="checkbox" .checked=${this.hum} @change=${(e: Event) => (this.hum = (e.target as HTMLInputElement).checked)}> Hum must cancel where it can</label></div>
          ${this.choices()}`}
      ${s.mode === "bench" && s.name && keptDraft()?.opened === s.name ? html`<p><button @click=${() => store.set({ mode: "new" })}>Back to the choices of parts and sounds</button></p>` : nothing}
      ${this.trouble ? html`<p class="trouble" role="alert">${this.trouble}</p>` : nothing}
      ${this.found && this.of === s.text ? this.result(this.found) : nothing}</section>`;
  }

  private result(f: Found) {
    const wirings = f.wirings ?? [];
    return html`<div role="status">${wirings.map((w, i) => html`<p class="offer"><button class=${i === 0 ? "main" : ""} @click=${() => use(f.texts![i])}>Use ${i === 0 ? "this" : "another"} wiring: ${w.count} joins</button>
        <span>${f.proved?.[i] ? "✓ checked by a second, separate proof" : "! the proof does not hear all of it"}${i === 0 ? this.fewest(f) : ""}</span>
        ${(w.crowded ?? []).length ? html`<br>More than three wires at ${w.crowded!.join(", ")}.` : nothing}
        ${(w.differs ?? []).filter((d) => !d.includes(" -- ")).map((d) => html`<br>${d}`)}
</p>
        ${(w.differs ?? []).some((d) => d.includes(" -- ")) ? html`<details><summary>Its other joins</summary><p class="foot">${w.differs!.filter((d) => d.includes(" -- ")).join("; ")}</p></details>` : nothing}
        ${(w.noise ?? []).length ? html`<details><summary>${w.noise!.length} moments in travel</summary><ul>${w.noise!.map((n) => html`<li>${n.moment} on the way from ${n.from} to ${n.to}</li>`)}</ul></details>` : nothing}`)}
      ${(f.rests ?? []).map((r) => html`<p class="foot">It takes for granted: ${r.takes}. ${r.reading} Otherwise: ${r.swap}</p>`)}
      ${f.why ? this.why(f.why) : nothing}
      ${f.status === "not proved" ? html`<p>Neither found nor ruled out in the time that a search may take.</p>` : nothing}
      ${(f.why ? [] : (f.findings ?? [])).filter((d) => d.severity === "error").map((d) => html`<p class="trouble">${d.message}</p>`)}</div>`;
  }

  private why(w: SynthesisWhy) {
    return html`<p>It cannot be done: ${(w.conflict ?? []).length === 1 ? "this cannot be met with these parts" : "these cannot be met together"}${w.rule ? `, since ${w.rule}` : ""}.</p>
      <ul>${(w.conflict ?? []).map((c) => html`<li>with ${c.with}: ${c.hear}</li>`)}</ul>
      ${w.hint ? html`<p>${w.hint}</p>` : nothing}
      ${w.switch ? html`<p><button @click=${() => exchange(w.switch!.for, w.switch!.part, w.switch!.order ?? [])}>Use ${w.switch.name} for ${w.switch.for}</button>
        ${(w.switch.order ?? []).length ? `Its sounds move: ${w.switch.order!.map((o) => `${o.position} gets that of ${o.gets}`).join(", ")}.` : "The sounds keep their order."}</p>` : nothing}
      ${(w.order ?? []).length ? this.order(w.orderOf ?? "", w.order!) : nothing}
      ${(w.giveUp ?? []).map((c) => html`<p><button @click=${() => giveUp([c])}>Give up ${c.hear} with ${c.with}</button></p>`)}
      ${(w.giveUp ?? []).length === 0 && (w.giveUpAll ?? []).length ? this.giveUpAll(w.giveUpAll!) : nothing}
      ${(w.loosened ?? []).map((l) => this.loosened(l))}
      ${w.unexplored ? html`<p class="foot">Not every way out was looked at in the time that a search may take.</p>` : nothing}`;
  }

  /** choices are the demands that most people leave as they are. */
  private choices() {
    return html`<details class="choices" ?open=${this.hanging || this.lugs > 0}><summary>More choices</summary>
      <label class="check"><input type="checkbox" .checked=${this.hanging} @change=${(e: Event) => (this.hanging = (e.target as HTMLInputElement).checked)}> A coil that is not heard may stay joined with one end; it can pick up hum</label>
      <label>Wires on a lug <select @change=${(e: Event) => (this.lugs = Number((e.target as HTMLSelectElement).value))}>
        ${crowded.map((n) => html`<option value=${n} .selected=${n === this.lugs}>${n ? `${n} at most` : "three, more only where it must be"}</option>`)}</select></label></details>`;
  }

  /** fewest says how far nothing has fewer joins. */
  private fewest(f: Found): string {
    if (f.smallest) return f.byPart ? "; proved part by part: none of its parts does with fewer on its own" : "; none has fewer";
    return f.bound ? `; fewer than ${f.bound} cannot do, whether anything between would is not known` : "";
  }

  private giveUpAll(all: SynthesisWish[]) {
    if (all.length >= (store.state.loom?.settings ?? []).filter((r) => r.wanted).length) return nothing; // nothing would be left
    return html`<p>Giving up one of them is not enough. Without ${all.map((c) => `${c.hear} with ${c.with}`).join(" and ")} the others can be had.
      <button @click=${() => giveUp(all)}>Give up these ${all.length}</button></p>`;
  }

  /** loosened offers to take back a demand of the search; one that the loom makes is named. */
  private loosened(words: string) {
    const allow = { "a silent coil": () => (this.hanging = true), "hum need not": () => (this.hum = false), "a lug may": () => (this.lugs = 0) };
    const way = Object.entries(allow).find(([begins]) => words.startsWith(begins))?.[1];
    return html`<p>It can be done if ${words}.
      ${way ? html`<button @click=${() => { way(); void this.search(); }}>Allow this and search again</button>` : nothing}</p>`;
  }

  /** order offers the same switch with its sounds exchanged. */
  private order(of: string, order: NonNullable<SynthesisWhy["order"]>) {
    const moved = order.filter((o) => o.position !== o.gets);
    const is = store.state.loom?.parts?.find((p) => p.name === of)?.is;
    return html`<p>${of} as it is can do it in another order: ${moved.map((o) => `${o.position} gets that of ${o.gets}`).join(", ")}.
      ${is ? html`<button @click=${() => exchange(of, is, order)}>Take it in this order</button>` : nothing}</p>`;
  }

  private async search(): Promise<void> {
    const { name, text } = store.state;
    const run = (this.searching = crypto.randomUUID());
    this.trouble = "";
    this.found = this.progress = undefined;
    this.requestUpdate();
    void this.updateComplete.then(() => this.querySelector<HTMLElement>(".stop")?.focus());
    const f = await ask<Found>("search", "find", { name, text, humCancels: this.hum, hanging: this.hanging, wiresPerLug: this.lugs }, undefined, (p) => {
      this.progress = p as SynthesisProgress;
      this.requestUpdate();
    });
    if (this.searching !== run) return;
    this.searching = "";
    if (f && failed(f)) this.trouble = f.error;
    else if (f) [this.found, this.of] = [f, text];
    this.ended();
  }

  /** ended leaves the keyboard at what can be done next. */
  private ended(): void {
    this.requestUpdate();
    const here = this.contains(document.activeElement);
    void this.updateComplete.then(() => here && (this.querySelector<HTMLElement>("[role=status] button") ?? this.querySelector<HTMLElement>(".search"))?.focus());
  }

  private cancel(): void {
    this.searching = "";
    this.ended();
    stop("search");
    store.set({ says: "the search is stopped" });
  }
}

define("lw-find", Find);
