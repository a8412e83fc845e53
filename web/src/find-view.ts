// Finding a wiring for what is wanted: progress, cancel, and where it cannot be
// done the reason, each way out a button.
import { html, nothing } from "lit";
import { exchange, giveUp, wired } from "./act.js";
import { ask, failed, stop } from "./core.js";
import { keptDraft } from "./plan.js";
import { store } from "./store.js";
import { define, View } from "./view.js";
import type { Found, SynthesisProgress, SynthesisWhy } from "./types.gen.js";

/** use takes a wiring, and shows it on the bench. */
function use(text: string): void {
  wired(text);
  store.set({ mode: "bench", panel: "table" });
}

class Find extends View {
  private searching = "";
  private progress?: SynthesisProgress;
  private found?: Found;
  private of = ""; // the text that was searched
  private hum = false;
  private trouble = "";

  render() {
    const s = this.state;
    if (!s.readable || !(s.loom?.settings ?? []).some((r) => r.wanted)) return nothing;
    const missed = (s.loom?.settings ?? []).filter((r) => r.wanted?.met === "no").length;
    return html`<section aria-labelledby="find-head"><h2 id="find-head">Find wiring</h2>
      ${this.searching ? html`<p role="status">Searching … ${this.progress ? `${this.progress.stage}${this.progress.joins ? `, ${this.progress.joins} joins so far` : ""}` : ""}</p>
          <button class="stop" @click=${this.cancel}>Stop the search</button>`
        : html`<p>${missed ? `${missed} wanted ${missed === 1 ? "sound is" : "sounds are"} not heard yet.` : "Every wanted sound is heard."} The search finds the fewest wires that make them all.</p>
          <div class="row-of"><button class="search" @click=${this.search}>Find wiring</button>
          <label class="check"><input type="checkbox" .checked=${this.hum} @change=${(e: Event) => (this.hum = (e.target as HTMLInputElement).checked)}> Hum must cancel where it can</label></div>`}
      ${s.mode === "bench" && s.name && keptDraft()?.opened === s.name ? html`<p><button @click=${() => store.set({ mode: "new" })}>Back to the choices of parts and sounds</button></p>` : nothing}
      ${this.trouble ? html`<p class="trouble" role="alert">${this.trouble}</p>` : nothing}
      ${this.found && this.of === s.text ? this.result(this.found) : nothing}</section>`;
  }

  private result(f: Found) {
    const wirings = f.wirings ?? [];
    return html`<div role="status">${wirings.map((w, i) => html`<p><button @click=${() => use(f.texts![i])}>Use ${i === 0 ? "this" : "another"} wiring: ${w.count} joins</button>
        ${f.proved?.[i] ? "✓ proved again by other code" : "! the proof does not hear all of it"}${i === 0 && f.smallest ? "; none has fewer" : ""}
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
      ${(w.order ?? []).length ? this.order(w.order!) : nothing}
      ${(w.giveUp ?? []).map((c) => html`<p><button @click=${() => giveUp(c.sound, c.hear)}>Give up ${c.hear} with ${c.with}</button></p>`)}
      ${(w.loosened ?? []).map((l) => html`<p>It can be done without this demand: ${l}.</p>`)}`;
  }

  /** order offers the same switch with its sounds exchanged. */
  private order(order: NonNullable<SynthesisWhy["order"]>) {
    const moved = order.filter((o) => o.position !== o.gets);
    const of = (store.state.loom?.switches ?? []).filter((s) => order.every((o) => s.positions?.includes(o.position)));
    const is = store.state.loom?.parts?.find((p) => p.name === of[0]?.name)?.is;
    return html`<p>The same switch can do it in another order: ${moved.map((o) => `${o.position} gets that of ${o.gets}`).join(", ")}.
      ${of.length === 1 && is ? html`<button @click=${() => exchange(of[0].name, is, order)}>Take it in this order</button>` : nothing}</p>`;
  }

  private async search(): Promise<void> {
    const { name, text } = store.state;
    const run = (this.searching = crypto.randomUUID());
    this.trouble = "";
    this.found = this.progress = undefined;
    this.requestUpdate();
    void this.updateComplete.then(() => this.querySelector<HTMLElement>(".stop")?.focus());
    const f = await ask<Found>("search", "find", { name, text, humCancels: this.hum }, undefined, (p) => {
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
