// Which lugs of an unknown switch meet in which position: one sweep of the
// probe a screen. Every answer can be taken back.
import { html, nothing } from "lit";
import { ask, failed } from "./core.js";
import { define, View } from "./view.js";
import type { LeadsSwitchState, LugStep } from "./types.gen.js";

const usual: Record<number, string[]> = {
  2: ["up", "down"], 3: ["up", "middle", "down"], 5: ["bridge", "toward bridge", "middle", "toward neck", "neck"],
};
const numbers = (n: number): string[] => Array.from({ length: n }, (_, i) => String(i + 1));

/** Told is an unknown switch as it was found: its part file, and what it is called. */
export interface Told {
  name: string;
  step: LugStep;
}

class SwitchWizard extends View {
  private s: LeadsSwitchState = { lugs: numbers(6), positions: usual[3], answers: [] };
  private step?: LugStep;
  private meet: string[] = [];
  private name = "";
  private trouble = "";
  private busy = false;

  render() {
    return html`<section class="wizard" aria-labelledby="wizard-head">
      ${!this.step ? this.look() : this.step.found ? this.found(this.step) : this.question(this.step)}
      ${this.trouble ? html`<p class="trouble" role="alert">${this.trouble}</p>` : nothing}</section>`;
  }

  private look() {
    const lugs = this.s.lugs ?? [], positions = this.s.positions ?? [];
    return html`<h2 id="wizard-head" tabindex="-1">Find the contacts of a switch: look at it first</h2>
      <p>Make a sketch of the switch from the side you solder on, and number its lugs in it: first row from left to right, then the next. Leave out a tag of the frame.</p>
      <div class="row-of"><label>Lugs <input type="number" min="2" max="40" .value=${String(lugs.length)} @change=${(e: Event) => this.set({ lugs: numbers(within(e, 2, 40)) })}></label>
        <label>Positions <input type="number" min="2" max="16" .value=${String(positions.length)}
          @change=${(e: Event) => { const n = within(e, 2, 16); this.set({ positions: usual[n] ?? numbers(n) }); }}></label></div>
      <p class="group-name" id="wizard-positions">What you call the positions, in the order of its travel</p>
      <div class="row-of" role="group" aria-labelledby="wizard-positions">${positions.map((p, i) => html`<input class="short" aria-label=${`Position ${i + 1}`} .value=${p} autocapitalize="off" spellcheck="false"
        @change=${(e: Event) => this.set({ positions: positions.map((q, k) => (k === i ? (e.target as HTMLInputElement).value.trim() : q)) })}>`)}</div>
      <div class="row-of"><label>What you call the switch <input .value=${this.name} placeholder="unmarked switch" @input=${(e: Event) => (this.name = (e.target as HTMLInputElement).value)}></label></div>
      <p class="foot">Nothing may be soldered to it. Set the meter to its beeper, or to its lowest ohms.</p>
      <div class="row-of go"><button @click=${this.leave}>Back</button><button class="main" ?disabled=${this.busy} @click=${() => this.next({ ...this.s, answers: [] })}>Begin with the readings</button></div>`;
  }

  private question(step: LugStep) {
    const q = step.question!;
    return html`<h2 id="wizard-head" tabindex="-1">Reading ${(this.s.answers ?? []).length + 1}: switch at ${q.position}</h2>
      <p class="probes"><span class="red">One probe stays on lug <strong>${q.on}</strong></span></p>
      <p class="say" id="wizard-over">Touch the other probe to each of these lugs. Tap those that beep, or read about 0 Ω:</p>
      <div class="chips lugs" role="group" aria-labelledby="wizard-over">${(q.over ?? []).map((l) => html`<button aria-pressed=${this.meet.includes(l)} aria-label=${`lug ${l}`}
        @click=${() => { this.meet = this.meet.includes(l) ? this.meet.filter((m) => m !== l) : [...this.meet, l]; this.requestUpdate(); }}>${l}</button>`)}</div>
      <div class="row-of go"><button @click=${this.back}>Back</button><button class="main" ?disabled=${this.busy} @click=${this.answer}>${this.meet.length === 0 ? "None of them" : this.meet.length === 1 ? "This one beeps" : `These ${this.meet.length} beep`}</button></div>`;
  }

  private found(step: LugStep) {
    const f = step.found!;
    return html`<h2 id="wizard-head" tabindex="-1">What the meter tells</h2><p class="say" role="status">${f.says}</p>
      <ul class="plain">${(this.s.positions ?? []).map((p) => html`<li><strong>${p}</strong> ${(f.groups[p] ?? []).map((g) => g.join(" and ")).join("; ") || "nothing meets"}</li>`)}</ul>
      ${(f.poles ?? []).map((p, i) => html`<p>Pole ${i + 1}: lugs ${(p.lugs ?? []).join(", ")}; its common is ${p.common}.</p>`)}
      <p class="foot">Whether it breaks before it makes is not known: travel is proved both ways.</p>
      <div class="row-of go"><button @click=${this.back}>Back</button>${(f.poles ?? []).length ? html`<button class="main" @click=${this.give}>Use this switch</button>` : nothing}</div>`;
  }

  private set(patch: Partial<LeadsSwitchState>): void {
    this.s = { ...this.s, ...patch };
    this.trouble = "";
    this.requestUpdate();
  }

  private answer = (): void => {
    const q = this.step!.question!;
    void this.next({ ...this.s, answers: [...(this.s.answers ?? []), { position: q.position, on: q.on, over: q.over, meet: this.meet }] });
  };

  private back = (): void => {
    const answers = this.s.answers ?? [];
    if (answers.length) void this.next({ ...this.s, answers: answers.slice(0, -1) }, answers.at(-1)!.meet ?? []);
    else {
      this.step = undefined;
      this.shown();
    }
  };

  private async next(s: LeadsSwitchState, meet: string[] = []): Promise<void> {
    this.busy = true;
    this.requestUpdate();
    const step = await ask<LugStep>("search", "lug", { lugs: s, value: this.name.trim() || "unmarked switch", key: "found" });
    this.busy = false;
    if (step && failed(step)) this.trouble = step.error;
    else if (step) [this.s, this.step, this.meet, this.trouble] = [s, step, meet, ""];
    this.shown();
  }

  private shown(): void {
    this.requestUpdate();
    void this.updateComplete.then(() => {
      this.querySelector<HTMLElement>("#wizard-head")?.focus();
      this.scrollIntoView({ block: "nearest" });
    });
  }

  private give = (): void => void this.dispatchEvent(new CustomEvent<Told>("found", { detail: { name: this.name.trim() || "unmarked switch", step: this.step! } }));
  private leave = (): void => void this.dispatchEvent(new CustomEvent("left"));
}

const within = (e: Event, least: number, most: number): number =>
  Math.min(most, Math.max(least, Math.round(Number((e.target as HTMLInputElement).value)) || least));

define("lw-switch-wizard", SwitchWizard);
