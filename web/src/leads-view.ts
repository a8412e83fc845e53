// How the leads of one pickup come out: by a code, in a maker's words, lead by
// lead, by meter, or not known.
import { html, nothing } from "lit";
import { ask, failed } from "./core.js";
import { endWords } from "./lead-wizard.js";
import { codesFor, type How, type Pickup } from "./plan.js";
import { define, View } from "./view.js";
import type { Choice, Choices, LeadEnd, LeadNotes, LeadsState, Worded } from "./types.gen.js";

const ways: [How, string][] = [["coil", "By start and finish"], ["code", "By a lead code"], ["words", "As the maker says it"], ["unknown", "Nobody knows"], ["meter", "Find out with a meter"]];

class Leads extends View {
  static properties = { place: { attribute: false }, pickup: { attribute: false }, choice: { attribute: false }, choices: { attribute: false }, like: { attribute: false } };
  declare place: string;
  declare pickup: Pickup;
  declare choice?: Choice;
  declare choices: Choices;
  declare like?: string[]; // colours of another pickup of the same kind
  private finding = false;
  private left: string[] = [];

  render() {
    const p = this.pickup, id = "leads-" + this.place;
    const codes = codesFor(this.choices, p.is);
    if (this.finding) {
      return html`<lw-lead-wizard .place=${this.place} .choice=${this.choice} .codes=${codes} .began=${p.state} .like=${this.like}
        @told=${(e: CustomEvent<LeadsState>) => this.give({ state: e.detail })}
        @found=${(e: CustomEvent<LeadNotes>) => this.ended({ how: "meter", notes: e.detail })} @left=${() => this.ended({})}></lw-lead-wizard>`;
    }
    return html`<section class="leads" aria-labelledby=${id}><h3 id=${id} tabindex="-1">${this.place}: ${this.choice?.name}</h3>
      <div class="chips" role="group" aria-labelledby=${id}>${ways.filter(([h]) => h !== "code" || codes.length).map(([h, word]) => html`<button aria-pressed=${p.how === h || (h === "words" && p.how === "each")}
        @click=${() => this.way(h)}>${word}</button>`)}</div>
      ${this.panel(codes)}</section>`;
  }

  private panel(codes: ReturnType<typeof codesFor>) {
    const p = this.pickup;
    switch (p.how) {
      case "code": return html`<div class="row-of"><label>Code <select @change=${(e: Event) => this.give({ code: (e.target as HTMLSelectElement).value })}>
          <option value="" ?selected=${!p.code}>choose one</option>${codes.map((c) => html`<option ?selected=${c.name === p.code} value=${c.name}>${c.name}</option>`)}</select></label></div>
        ${codes.filter((c) => c.name === p.code).map((c) => html`<p>${c.about}</p>${this.list(c.leads ?? [])}`)}`;
      case "words": case "each": return this.words();
      case "unknown": return html`<div class="row-of"><label>The colours of its leads, with commas between <input class="title" .value=${p.colours} placeholder="as white, brown, red/grey, bare" autocapitalize="off" spellcheck="false"
          @change=${(e: Event) => this.give({ colours: (e.target as HTMLInputElement).value })}></label></div>
        <p class="foot">A wiring is found with one guess, and says which leads it takes for granted. A meter tells them in about five readings.</p>`;
      case "meter": return p.notes ? html`<p>Found with the meter:</p>${this.list(p.notes.leads ?? [])}<p><button @click=${this.find}>Look at the readings again</button></p>` : nothing;
      default: return html`<p class="foot">Drawing and steps say ${(this.choice?.ends ?? []).slice(0, 2).map(endWords).join(", ")}${(this.choice?.ends ?? []).length > 2 ? " and so on" : ""}, without colours.</p>`;
    }
  }

  private list(leads: LeadEnd[]) {
    return html`<ul class="plain">${leads.map((l) => html`<li><strong>${l.lead}</strong> ${(l.ends ?? []).map(endWords).join(", and ") || "not known"}</li>`)}</ul>`;
  }

  private words() {
    const p = this.pickup, leads = p.worded?.leads ?? [];
    const ends = [...(this.choice?.ends ?? []), ...(this.choice?.coils?.length === 2 ? ["hot", "ground", "link"] : [])];
    return html`<label class="block">Type what the paper says, in its own words
        <textarea rows="3" placeholder="orange is the start of the screw coil, pink its finish; blue is the start of the slug coil, violet its finish; bare is ground" .value=${p.words}
          @input=${(e: Event) => this.read((e.target as HTMLTextAreaElement).value)}></textarea></label>
      <div role="status">${this.left.length ? html`<p class="trouble">Not understood: ${this.left.join("; ")}</p>` : nothing}</div>
      ${leads.length ? html`<p>Understood so. Put right what is wrong:</p><ul class="plain">${leads.map((l, i) => html`<li><label><strong>${l.lead}</strong> <select @change=${(e: Event) => this.mend(i, (e.target as HTMLSelectElement).value)}>
        <option value="" ?selected=${!l.ends?.length}>not known</option>
        ${[...new Set([...ends, ...(l.ends?.length ? [l.ends.join("+")] : [])])].map((end) => html`<option value=${end} ?selected=${end === l.ends?.join("+")}>${end.split("+").map(endWords).join(" and ")}</option>`)}</select></label></li>`)}</ul>
        ${this.choice?.coils?.includes("south") && /screw|slug|stud/.test(p.words) ? html`<p class="foot">The screws are taken as the south coil (from memory; a compass tells).</p>` : nothing}` : nothing}`;
  }

  private async read(words: string): Promise<void> {
    this.give({ words, how: "words" });
    const w = await ask<Worded>("search", "wording", { part: this.pickup.is, value: words }, "wording " + this.place);
    if (!w || failed(w)) return;
    this.left = w.left ?? [];
    this.give({ worded: { leads: w.leads, inside: w.inside } });
  }

  private mend(i: number, end: string): void {
    const leads = (this.pickup.worded?.leads ?? []).map((l, k) => (k === i ? { lead: l.lead, ends: end ? end.split("+") : [] } : l));
    this.give({ how: "each", worded: { ...this.pickup.worded, leads } });
  }

  private way(how: How): void {
    if (how === "meter" && !this.pickup.notes) this.find();
    else this.give({ how });
  }
  private find = (): void => {
    this.finding = true;
    this.requestUpdate();
  };
  private ended(patch: Partial<Pickup>): void {
    this.finding = false;
    this.give(patch);
    this.requestUpdate();
    void this.updateComplete.then(() => this.querySelector<HTMLElement>("h3")?.focus());
  }
  private give(patch: Partial<Pickup>): void {
    this.dispatchEvent(new CustomEvent("change", { detail: patch }));
  }
}

define("lw-leads", Leads);
