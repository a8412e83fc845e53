// Which lead is which: one reading a screen, from a look at the pickup to what
// each lead is. Every answer can be taken back.
import { html, nothing } from "lit";
import { ask, failed } from "./core.js";
import { define, View } from "./view.js";
import type { Choice, CodeChoice, LeadNotes, LeadStep, LeadsState } from "./types.gen.js";

/** colours as insulation has them, by IEC 60757 and custom. */
export const colours = ["black", "brown", "red", "orange", "yellow", "green", "blue", "violet", "grey", "white", "pink", "turquoise"];

const makes: [string, number, number, string][] = [ // make, leads, coils, in words
  ["single coil", 2, 1, "One coil, two leads"], ["tapped coil", 3, 2, "One coil with a tap, three leads"],
  ["twin coil, four leads", 4, 2, "Two coils, four leads"], ["twin coil, two leads", 2, 2, "Two coils joined inside, two leads"],
  ["three coils, six leads", 6, 3, "Two coils and a single one, six leads"],
];

const says: Record<string, string> = { up: "Up", down: "Down", nothing: "Does not move", north: "North", south: "South" };

/** endWords puts the end of a coil in words. */
export const endWords = (end: string): string =>
  ({ hot: "hot", ground: "ground", link: "joined to the other link lead", shield: "shield" })[end] ?? end.replace(/^(\w+)\.(\w+)$/, "$2 of the $1 coil").replace("coil coil", "coil");

/** leadWords names a lead so that it is found on the pickup. */
const leadWords = (lead: string): string => (lead === "bare" ? "bare wire or braid" : lead);

/** inPlace is a task without what the probes' own lines say already. */
const inPlace = (task: string): string => task.replace(/, red on [^,.]+, black on [^,.]+\./, ".").replace(/ and bare\b/, " and the bare wire or braid");

export class LeadWizard extends View {
  static properties = { place: { attribute: false }, choice: { attribute: false }, codes: { attribute: false }, began: { attribute: false }, like: { attribute: false } };
  declare place: string;
  declare choice?: Choice;
  declare codes: CodeChoice[];
  declare began?: LeadsState;
  declare like?: string[]; // colours to begin with
  private s!: LeadsState;
  private step?: LeadStep;
  private believed = "";
  private value = "";
  private other = "";
  private trouble = "";
  private bareNumber = ""; // typed without a unit
  private busy = false;

  connectedCallback(): void {
    super.connectedCallback();
    const usual = { 1: "single coil", 3: "three coils, six leads" }[this.choice?.coils?.length ?? 2] ?? (this.choice?.id === "pickup/tapped-coil" ? "tapped coil" : "twin coil, four leads");
    this.s = this.began ?? { pickup: { make: usual, leads: this.like ?? [], bare: usual === "twin coil, four leads" ? "bare" : "", plate: false, compass: false }, answers: [], skip: [] };
    if (this.began?.answers?.length) void this.next(this.s);
  }

  private count(): number {
    return (makes.find((m) => m[0] === this.s.pickup.make)?.[1] ?? 4) + Number(!!this.s.pickup.hidden);
  }

  render() {
    return html`<section class="wizard" aria-labelledby="wizard-head">
      ${!this.step ? this.look() : this.step.found ? this.found(this.step) : this.question(this.step)}
      ${this.trouble ? html`<p class="trouble" role="alert">${this.trouble}</p>` : nothing}</section>`;
  }

  private look() {
    const p = this.s.pickup, leads = p.leads ?? [], need = this.count();
    const all = [...colours, ...leads.filter((l) => !colours.includes(l))];
    return html`<h2 id="wizard-head" tabindex="-1">Find the leads of the ${this.place} pickup: look at it first</h2>
      <p class="group-name" id="wizard-make">What it is</p>
      <div class="chips" role="group" aria-labelledby="wizard-make">${makes.filter((m) => !this.choice || (m[2] === this.choice.coils?.length && (m[0] === "tapped coil") === (this.choice.id === "pickup/tapped-coil"))).map(([m, , , word]) => html`<button
        aria-pressed=${p.make === m} @click=${() => this.set({ make: m })}>${word}</button>`)}</div>
      <p class="group-name" id="wizard-colours">Tap the colours of its ${need} insulated leads (${leads.length} of ${need})</p>
      <div class="chips colours" role="group" aria-labelledby="wizard-colours">${all.map((c) => html`<button aria-pressed=${leads.includes(c)}
        @click=${() => this.set({ leads: leads.includes(c) ? leads.filter((l) => l !== c) : [...leads, c] })}><i class="dot" data-colour=${c.split(/\W/)[0]}></i>${c}</button>`)}</div>
      <form class="row-of" @submit=${this.more}><label>A striped lead, or another colour <input .value=${this.other} placeholder="as red/white" autocapitalize="off" spellcheck="false"
        @input=${(e: Event) => (this.other = (e.target as HTMLInputElement).value)}></label><button>Add it</button></form>
      <p class="group-name" id="wizard-more">And</p>
      <div class="ticks" role="group" aria-labelledby="wizard-more">
        ${this.tick("there is a bare wire or a braid", !!p.bare, (on) => this.set({ bare: on ? "bare" : "", hidden: false }))}
        ${this.tick("one of the leads is the shield, nobody knows which", !!p.hidden, (on) => this.set({ hidden: on, bare: "" }))}
        ${this.tick("its metal baseplate or cover can be touched", !!p.plate, (on) => this.set({ plate: on }))}
        ${this.tick("a compass is at hand", !!p.compass, (on) => this.set({ compass: on }))}</div>
      ${this.codes?.length ? html`<div class="row-of"><label>Only to check a code <select @change=${(e: Event) => (this.believed = (e.target as HTMLSelectElement).value)}>
        <option value="">no: find them</option>${this.codes.map((c) => html`<option ?selected=${c.name === this.believed}>${c.name}</option>`)}</select></label></div>` : nothing}
      <p class="foot">Unplug the guitar. Lay the pickup's leads apart so that none touches another. Hold the probes together once: what they show is to be taken off every reading.</p>
      <div class="row-of go"><button @click=${this.leave}>Back</button><button class="main" ?disabled=${leads.length !== need || this.busy} @click=${() => this.next({ ...this.s, answers: [], skip: [] })}>Begin with the readings</button></div>`;
  }

  private tick(word: string, on: boolean, set: (on: boolean) => void) {
    return html`<label class="check"><input type="checkbox" .checked=${on} @change=${(e: Event) => set((e.target as HTMLInputElement).checked)}> ${word}</label>`;
  }

  private question(step: LeadStep) {
    const q = step.question!;
    const [, a, b] = /(?:ohms|at) (.+) to (.+)/.exec(q.key) ?? [];
    return html`<h2 id="wizard-head" tabindex="-1">Reading ${(this.s.answers ?? []).length + 1}</h2>
      ${a ? html`<p class="probes"><span class="red">Red probe on <strong>${leadWords(a)}</strong></span><span class="black">Black probe on <strong>${leadWords(b)}</strong></span></p>` : nothing}
      <p class="say">${inPlace(q.do)}</p>
      ${(q.answers ?? []).length ? html`<div class="answers">${q.answers!.map((w) => html`<button @click=${() => this.answer(w)} ?disabled=${this.busy}>${says[w] ?? w}</button>`)}</div>`
        : html`<form class="reading-line" @submit=${(e: Event) => (e.preventDefault(), this.typed())}>
          <label>The meter shows <input .value=${this.value} inputmode="text" autocomplete="off" autocapitalize="off" spellcheck="false" placeholder="as 7.8k" @input=${(e: Event) => ((this.value = (e.target as HTMLInputElement).value), this.bareNumber && ((this.bareNumber = ""), this.requestUpdate()))}></label>
          <button class="main" ?disabled=${this.busy}>That is it</button><button type="button" ?disabled=${this.busy} @click=${() => this.answer("OL")}>Open: OL or 1</button></form>
          ${this.bareNumber ? html`<div class="row-of" role="alert">Which is it? ${["kΩ", "Ω"].map((u) => html`<button class=${u === "kΩ" ? "main" : ""} ?disabled=${this.busy} @click=${() => this.answer(this.bareNumber + u)}>${this.bareNumber} ${u}</button>`)}</div>` : nothing}`}
      ${q.answers?.includes("up") ? html`<p class="foot">On a digital meter: DC volts, the lowest range (200 mV). Up is a number without a minus sign, down one with it. Look at the first moment of the touch; touch a few times. Lifting off shows the other sign.</p>` : nothing}
      <p class="foot">Why: ${q.why}. ${step.left > 1 ? `${step.left} ways are left in which the leads can be.` : ""}</p>
      <div class="row-of go"><button @click=${this.back}>Back</button><button @click=${this.skip} ?disabled=${this.busy}>I cannot do that here</button></div>`;
  }

  private found(step: LeadStep) {
    const f = step.found!, known = step.notes?.leads ?? [];
    return html`<h2 id="wizard-head" tabindex="-1">What the meter tells</h2><p class="say" role="status">${f.says}</p>
      <ul class="plain">${known.map((l) => html`<li><strong>${l.lead}</strong> ${(l.ends ?? []).map(endWords).join(", and ") || "not known"}</li>`)}</ul>
      ${Object.entries(f.ohms ?? {}).map(([coil, r]) => html`<p>The ${coil === "coil" ? "" : coil + " "}coil has ${r}.</p>`)}
      ${(f.notes ?? []).map((n) => html`<p class="foot">${n}</p>`)}
      <div class="row-of go"><button @click=${this.back}>Back</button>
        ${Object.keys(f.ends).length ? html`<button class="main" @click=${() => this.give(step.notes!)}>Use these leads</button>` : nothing}</div>`;
  }

  private set(patch: Partial<LeadsState["pickup"]>): void {
    this.s = { ...this.s, pickup: { ...this.s.pickup, ...patch } };
    this.trouble = "";
    this.requestUpdate();
  }

  private more = (e: Event): void => {
    e.preventDefault();
    const word = this.other.trim().toLowerCase().replace(/\s*(,|\band\b|\bwith\b|\/)\s*/g, "/").replace(/\s+/g, "-");
    this.other = "";
    if (word && !this.s.pickup.leads?.includes(word)) this.set({ leads: [...(this.s.pickup.leads ?? []), word] });
  };

  /** typed gives what was typed; a small number without a unit may be Ω or kΩ. */
  private typed(): void {
    const said = this.value.trim();
    if (/^\d{1,2}([.,]\d+)?$/.test(said) && Number(said.replace(",", ".")) < 50 && Number(said.replace(",", ".")) > 0 && said !== "1") {
      this.bareNumber = said;
      this.requestUpdate();
    } else this.answer(said);
  }

  private answer(said: string): void {
    this.bareNumber = "";
    const q = this.step!.question!;
    void this.next({ ...this.s, answers: [...(this.s.answers ?? []).filter((a) => a.ask !== q.key), { ask: q.key, said: said.trim() }] });
  }

  private skip = (): void => void this.next({ ...this.s, skip: [...(this.s.skip ?? []), this.step!.question!.key] });

  private back = (): void => {
    const answers = this.s.answers ?? [];
    this.value = answers.at(-1)?.said ?? "";
    if (answers.length) void this.next({ ...this.s, answers: answers.slice(0, -1) }, this.value);
    else {
      this.step = undefined;
      this.shown();
    }
  };

  private async next(s: LeadsState, value = ""): Promise<void> {
    this.busy = true;
    this.requestUpdate();
    const step = await ask<LeadStep>("search", "lead", { leads: { ...s, pickup: this.named(s.pickup) }, key: this.believed });
    this.busy = false;
    if (step && failed(step)) {
      this.trouble = step.error;
      this.requestUpdate();
      return;
    }
    if (!step) return;
    [this.s, this.step, this.trouble, this.value] = [s, step, "", value];
    this.dispatchEvent(new CustomEvent("told", { detail: s }));
    this.shown();
  }

  /** named gives coils the names that they have in the part; those of a twin are told apart by the wizard. */
  private named(p: LeadsState["pickup"]): LeadsState["pickup"] {
    const names = this.choice?.coils ?? [];
    if (!this.choice || p.make === "tapped coil" || names.join() === "north,south") return p;
    return { ...p, part: this.choice.id, names, coils: names.length > 1 ? names.map((n) => `the ${n} coil`) : undefined };
  }

  private shown(): void {
    this.requestUpdate();
    void this.updateComplete.then(() => {
      this.querySelector<HTMLElement>("#wizard-head")?.focus();
      this.scrollIntoView({ block: "nearest" });
    });
  }

  private give(notes: LeadNotes): void {
    this.dispatchEvent(new CustomEvent("found", { detail: notes }));
  }
  private leave = (): void => void this.dispatchEvent(new CustomEvent("left"));
}

define("lw-lead-wizard", LeadWizard);
