// A new loom, step by step: pickups, their leads, switches, controls, sounds,
// and the wiring that makes them. Any step can be gone back to.
import { html, nothing } from "lit";
import { openLoom } from "./act.js";
import { ask, failed } from "./core.js";
import { store } from "./store.js";
import { define, View } from "./view.js";
import { empty, free, fresh, isSingle, keepOwn, keepPlan, keptDraft, ownParts, places, planOf, potsOf, schemeOf, spread, titleOf, used, usualScheme, withoutTone, type Draft, type Pickup, type Pot } from "./plan.js";
import { picture, schemePicture } from "./picture.js";
import { heardAs, inWords, strip } from "./coils.js";
import type { Told } from "./switch-wizard.js";
import "./leads-view.js";
import "./switch-wizard.js";
import "./pick-sound.js";
import "./find-view.js";
import type { Choice, Choices, Composed, OpenLoom, Table, Wishes } from "./types.gen.js";

const steps = ["Pickups", "Leads", "Switches", "Controls", "Sounds", "Wiring"];
const heads = ["Which pickups?", "How do their leads come out?", "Which switches?", "Which controls?", "What do you want to hear?", "The wiring that makes them"];
/** usual are the switches that are most likely for a number of pickups, first (common practice, no source). */
const usual: Record<number, string[]> = {
  1: ["switch/dpdt-on-on", "switch/dpdt-on-on-on"],
  2: ["switch/toggle-3way", "switch/lever-3way", "switch/lever-3way-2pole", "switch/lever-4way"],
  3: ["switch/lever-5way", "switch/lever-5way-inline", "switch/lever-4p5t"],
};
const kindOf = (id: string) => (/\/(lever|toggle|rotary|slide)/.exec(id)?.[1] ?? "switch");

class New extends View {
  private d: Draft = keptDraft() ?? fresh();
  private choices?: Choices;
  private loom?: OpenLoom;
  private composed?: Composed;
  private wishes?: Wishes;
  private open = ""; // setting whose sound is being chosen
  private sure = false; // about beginning again
  private others = false; // schemes than the chosen one are shown
  private finding = false; // contacts of a switch
  private trouble = "";

  connectedCallback(): void {
    super.connectedCallback();
    if (this.d.opened && this.d.opened === store.state.name && store.state.text) this.fromBench();
    void ask<Choices>("search", "choices", {}).then((c) => {
      if (c && !failed(c)) this.choices = { ...c, parts: [...(c.parts ?? []), ...Object.values({ ...ownParts(), ...this.d.own }).map((o) => o.choice)] };
      else this.trouble = c ? c.error : "";
      this.requestUpdate();
      if (this.d.step >= 4) void this.compose();
    });
  }

  render() {
    const d = this.d;
    if (!this.choices) return html`<h1>A new loom</h1><p class="lone" role="status">${this.trouble || "Laying out the parts …"}</p>`;
    if (this.finding) return html`<h1>A new loom</h1><lw-switch-wizard @found=${this.foundSwitch} @left=${() => this.go(2)}></lw-switch-wizard>`;
    return html`<h1>A new loom: ${steps[d.step].toLowerCase()}</h1>
      <nav class="steps" aria-label="Steps"><ol>${steps.map((s, i) => html`<li><button aria-current=${i === d.step ? "step" : nothing}
        ?disabled=${i > 0 && !used(d).length} @click=${() => this.go(i)}><span>${i + 1}</span> ${s}</button></li>`)}</ol></nav>
      <section class="step" aria-labelledby="step-head"><h2 id="step-head" tabindex="-1">${heads[d.step]}</h2>
      ${[this.pickups, this.leads, this.switches, this.controls, this.sounds, this.wiring][d.step].call(this)}
      ${this.trouble ? html`<p class="trouble" role="alert">${this.trouble}</p>` : nothing}
      <div class="row-of go">${d.step ? html`<button @click=${() => this.go(d.step - 1)}>Back</button>` : html`<button @click=${() => store.set({ mode: "open" })}>Leave it for now</button>`}
        ${d.step < 5 ? html`<button class="main" ?disabled=${!used(d).length} @click=${() => this.go(d.step + 1)}>Next: ${steps[d.step + 1].toLowerCase()}</button>` : nothing}
        ${used(d).length ? html`<button @click=${this.anew}>${this.sure ? "Yes, forget all that is chosen here" : "Begin again from nothing"}</button>` : nothing}</div></section>`;
  }

  private parts(cls: string): Choice[] {
    return (this.choices!.parts ?? []).filter((p) => p.class === cls);
  }
  private look(id: string): Choice | undefined {
    return this.choices!.parts!.find((p) => p.id === id);
  }

  private pickups() {
    const kinds = this.parts("pickup").filter((p) => !p.id.includes("points"));
    return html`<p>Choose what is in each place. Leave a place at "none" where the guitar has no pickup.</p>
      <div class="choices">${places.map((place) => {
        const p = this.d.pickups[place] ?? empty(), c = this.look(p.is);
        return html`<fieldset class="choice-card"><legend>${place} pickup</legend>
          ${c ? picture(c) : html`<span class="picture none" aria-hidden="true"></span>`}
          <div><label>It is <select @change=${(e: Event) => this.pickup(place, { is: (e.target as HTMLSelectElement).value, reverse: place === "middle" })}>
            <option value="" ?selected=${!p.is}>none</option>${kinds.map((k) => html`<option value=${k.id} ?selected=${k.id === p.is}>${k.name}${/twin-coil/.test(k.id) ? " (humbucking)" : ""}</option>`)}</select></label>
          ${c ? html`<label>ohms, if you measured it <input class="short" .value=${p.ohms} placeholder="as 7.9k" spellcheck="false" autocapitalize="off" @change=${(e: Event) => this.pickup(place, { ohms: (e.target as HTMLInputElement).value })}></label>
            ${c.coils?.length === 1 ? html`<label class="check"><input type="checkbox" .checked=${p.reverse} @change=${(e: Event) => this.pickup(place, { reverse: (e.target as HTMLInputElement).checked })}> reverse wound, reversed magnet</label>` : nothing}
            <p class="foot">${c.about}</p>` : nothing}</div></fieldset>`;
      })}</div>`;
  }

  private leads() {
    return html`<p>Each pickup on its own. What you do not know now can be found later: the wiring is found all the same, and says what it takes for granted.</p>
      ${used(this.d).map((place) => html`<lw-leads .place=${place} .pickup=${this.d.pickups[place]} .choice=${this.look(this.d.pickups[place].is)} .choices=${this.choices} .like=${this.like(place)}
        @change=${(e: CustomEvent<Partial<Pickup>>) => e.detail && this.pickup(place, e.detail)}></lw-leads>`)}`;
  }

  /** like are the colours of another pickup of the same kind: those of a set are mostly alike. */
  private like(place: string): string[] {
    const d = this.d;
    const other = used(d).find((p) => p !== place && d.pickups[p].is === d.pickups[place].is && d.pickups[p].state?.pickup.leads?.length);
    return other ? d.pickups[other].state!.pickup.leads! : [];
  }

  private switches() {
    const d = this.d, n = used(d).length;
    const place = (c: Choice) => (d.own[c.id] ? -1 : usual[n]?.findIndex((id) => id === c.id) ?? -1);
    const all = this.parts("switch").map((c) => ({ c, at: place(c) })).sort((a, b) => Number(a.at < 0 && !d.own[a.c.id]) - Number(b.at < 0 && !d.own[b.c.id]) || a.at - b.at).map(({ c }) => c);
    const first = (c: Choice) => d.own[c.id] || d.switches.some((s) => s.is === c.id) || /lever|toggle-3way$|dpdt-on-on/.test(c.id);
    return html`<p>${n > 1 ? "What selects the pickups, and what else is switched." : "With one pickup there need not be any."} Switches on a pot, such as a push-pull, come with the controls.</p>
      ${d.switches.length ? html`<ul class="plain" aria-label="Chosen switches">${d.switches.map((s, i) => html`<li><strong>${s.name}</strong> ${this.look(s.is)?.name ?? s.is}
        <button aria-label=${`Take ${s.name} away`} @click=${() => this.change({ switches: d.switches.filter((_, k) => k !== i) })}>Take away</button></li>`)}</ul>` : html`<p><em>No switch is chosen.</em></p>`}
      <div class="cards pictured">${all.filter(first).map((c) => this.switchCard(c))}</div>
      <details><summary>More switches</summary><div class="cards pictured">${all.filter((c) => !first(c)).map((c) => this.switchCard(c))}</div></details>
      <p><button @click=${() => { this.finding = true; this.requestUpdate(); }}>A switch that nobody knows: find its contacts with a meter</button></p>`;
  }

  private switchCard(c: Choice) {
    const have = this.d.switches.filter((s) => s.is === c.id).length;
    return html`<button class=${have ? "main" : ""} @click=${() => this.choose(c)}>
      ${picture(c)}<span><strong>${c.name}</strong>${this.d.own[c.id] || ownParts()[c.id] ? " (your own)" : ""}<br>${c.positions!.length} positions, ${c.poles} ${c.poles === 1 ? "pole" : "poles"}
        ${have ? html`<br><em>✓ ${have > 1 ? `${have} chosen` : "chosen"}; tap for one more</em>` : nothing}</span></button>`;
  }

  private choose(c: Choice): void {
    this.change({ switches: [...this.d.switches, { name: free(kindOf(c.id), this.d.switches.map((s) => s.name)), is: c.id }] });
    store.set({ says: `${c.name} is chosen` });
  }

  private controls() {
    const d = this.d, n = used(d).length;
    const fit = (this.choices!.schemes ?? []).filter((s) => (n > 1 || !s.each!.length) && (n === 2 || ![...s.each!, ...s.whole!].some((r) => r.is === "blend")));
    const scheme = schemeOf(d, this.choices!), pots = potsOf(d, scheme, isSingle(d, this.choices!));
    const bare = withoutTone(d, scheme);
    return html`<p>How volume and tone are hooked up. V is a volume, T a tone, B a blend; a tone hangs on the way, the sound passes a volume.</p>
      <div class="cards pictured wide" role="group" aria-label="Control schemes">${fit.filter((s) => this.others || !d.scheme || s.name === d.scheme).map((s) => html`<button aria-pressed=${s.name === d.scheme} @click=${() => ((this.others = false), this.change({ scheme: s.name }))}>
        ${schemePicture(s, used(d).map((p) => !withoutTone(d, s).includes(p)))}<span><strong>${s.name}</strong><br>${s.about}</span></button>`)}</div>
      ${d.scheme && !this.others ? html`<p><button @click=${() => ((this.others = true), this.requestUpdate())}>Another scheme</button></p>` : nothing}
      ${scheme?.some ? html`<p class="group-name" id="tones-for">A tone for</p><div class="chips" role="group" aria-labelledby="tones-for">${used(d).map((p) => html`<button aria-pressed=${!bare.includes(p)}
        @click=${() => this.change({ without: bare.includes(p) ? bare.filter((b) => b !== p) : [...bare, p] })}>${p}</button>`)}</div>` : nothing}
      ${[...(scheme?.each ?? []), ...(scheme?.whole ?? [])].some((r) => r.is === "bleed") ? html`<label class="check"><input type="checkbox" .checked=${d.bleed}
        @change=${(e: Event) => this.change({ bleed: (e.target as HTMLInputElement).checked })}> with a treble bleed: treble stays as the volume goes down</label>` : nothing}
      ${pots.length ? html`<h3>The parts for it</h3><p class="foot">A push-pull or push-push pot is chosen here, in place of a plain one.</p><ul class="plain">${pots.map((p) => this.potLine(p))}</ul>` : nothing}
      <p class="foot">A string ground and a jack are added. 500k for twin coils, 250k for single coils, is common practice, no source.</p>`;
  }

  private potLine(p: Pot) {
    const set = (patch: object) => this.change({ pots: { ...this.d.pots, [p.name]: { ...p, ...patch } } });
    const cap = p.is.startsWith("capacitor"), bleed = p.is.startsWith("bleed");
    const kinds = cap ? this.parts("capacitor") : bleed ? this.parts("bleed") : this.parts("pot").filter((k) => (k.id === "pot/blend") === (p.is === "pot/blend") && (p.is === "pot/blend" || k.tracks === 1));
    return html`<li class="part-line"><strong>${p.name}</strong>
      <label>is <select @change=${(e: Event) => set({ is: (e.target as HTMLSelectElement).value })}>${kinds.map((k) => html`<option value=${k.id} ?selected=${k.id === p.is}>${k.name}</option>`)}</select></label>
      <label>${bleed ? "capacitor" : "value"} <input .value=${p.value} spellcheck="false" autocapitalize="off" @change=${(e: Event) => set({ value: (e.target as HTMLInputElement).value.trim() })}></label>
      ${bleed && p.is !== "bleed/capacitor" ? html`<label>resistor <input .value=${p.resistor ?? ""} spellcheck="false" autocapitalize="off" @change=${(e: Event) => set({ resistor: (e.target as HTMLInputElement).value.trim() })}></label>` : nothing}</li>`;
  }

  private rows(): string[] {
    return (this.loom?.settings ?? []).map((r) => r.name);
  }

  private sounds() {
    const d = this.d, rows = this.rows();
    if (!this.loom) return html`<p class="lone" role="status">${this.trouble ? "" : "Laying out the settings …"}</p>`;
    const tables = (this.composed?.tables ?? []).map((t) => ({ ...t, rows: spread(t.sounds ?? [], rows) })).filter((t) => Object.keys(t.rows).length);
    const asked = rows.filter((r) => d.sounds[r]).length;
    return html`${tables.length ? html`<h3>Ready made</h3><div class="cards">${tables.map((t) => this.table(t, rows))}</div>` : nothing}
      <h3>${tables.length ? "Or setting by setting" : "Setting by setting"}: ${asked} of ${rows.length} asked</h3>
      <ul class="asked">${rows.slice(0, 64).map((r) => html`<li><button class="setting" aria-expanded=${this.open === r} @click=${() => ((this.open = this.open === r ? "" : r), this.requestUpdate())}>
          <span class="name">${r}</span> ${d.sounds[r] ? html`<span class="heard">${strip(heardAs(d.sounds[r], this.coils()))}${inWords(d.sounds[r])}</span>` : html`<em>anything</em>`}</button>
        ${this.open === r ? html`<lw-picker .wishes=${this.wishes} .sound=${d.sounds[r] ?? ""} @sound=${(e: CustomEvent<string>) => this.wanted(r, e.detail)}></lw-picker>` : nothing}</li>`)}</ul>
      ${rows.length > 64 ? html`<p class="foot">${rows.length - 64} more settings can be asked for on the bench.</p>` : nothing}
      ${(this.composed?.leftOut ?? []).length ? html`<p class="trouble">Left out, since these parts cannot be asked for it: ${this.composed!.leftOut!.map((s) => `${s.hear}${s.with ? ` with ${s.with}` : ""}`).join("; ")}.</p>` : nothing}`;
  }

  private coils(): string[] {
    return (this.wishes?.words ?? []).filter((w) => w.includes("."));
  }

  private table(t: Table & { rows: Record<string, string> }, rows: string[]) {
    const same = rows.every((r) => (t.rows[r] ?? "") === (this.d.sounds[r] ?? ""));
    return html`<button aria-pressed=${same} @click=${() => { this.change({ sounds: t.rows }); void this.compose(); }}><strong>${t.says}</strong><br>${[...new Set(rows.map((r) => inWords(t.rows[r] ?? "")).filter(Boolean))].join("; ")}</button>`;
  }

  private wanted(row: string, sound: string): void {
    this.change({ sounds: { ...this.d.sounds, [row]: sound } });
    const rows = this.rows(), next = rows[rows.indexOf(row) + 1] ?? "";
    this.open = sound && !this.d.sounds[next] ? next : "";
    store.set({ says: sound ? `with ${row}: ${sound}` : `with ${row}: anything` });
    void this.compose().then(() => [...this.querySelectorAll<HTMLElement>(".setting")].find((b) => b.querySelector(".name")?.textContent === (this.open || row))?.focus());
  }

  private wiring() {
    const asked = Object.values(this.d.sounds).filter(Boolean).length;
    if (!asked) return html`<p>Nothing is asked of any setting yet. <button @click=${() => this.go(4)}>Choose sounds</button></p>`;
    return html`<div class="row-of"><label>Title <input class="title" .value=${titleOf(this.d, this.choices!)} @change=${(e: Event) => { this.change({ title: (e.target as HTMLInputElement).value.trim() }); void this.compose(); }}></label></div>
      ${this.state.loom && this.state.name === this.d.opened ? html`<lw-find></lw-find><details><summary>The ${(this.state.loom.settings ?? []).length} settings as they are now</summary><lw-table></lw-table></details>` : html`<p class="lone">Writing it down …</p>`}
      <p><button @click=${() => store.set({ mode: "bench" })}>To the bench, as it is</button></p>`;
  }

  private pickup(place: string, patch: Partial<Pickup>): void {
    const was = this.d.pickups[place] ?? empty();
    const other = patch.is !== undefined && patch.is !== was.is ? { how: "coil" as const, notes: undefined, worded: undefined, state: undefined } : {};
    this.change({ pickups: { ...this.d.pickups, [place]: { ...was, ...other, ...patch } } });
  }

  private change(patch: Partial<Draft>): void {
    this.d = { ...this.d, ...patch };
    keepPlan(this.d);
    this.trouble = "";
    this.requestUpdate();
  }

  private go(step: number): void {
    if (this.d.step === 5 && step < 5) this.fromBench();
    this.finding = this.others = this.sure = false;
    this.change({ step, scheme: this.d.scheme || (step >= 3 ? usualScheme(this.d, this.choices!) : "") });
    if (step >= 4) void this.compose();
    void this.updateComplete.then(() => {
      this.querySelector<HTMLElement>("#step-head")?.focus();
      scrollTo({ top: 0 });
    });
  }

  /** compose writes the draft as a loom, and proves it for its settings; at the last step it is laid on the bench. */
  private async compose(): Promise<void> {
    const c = await ask<Composed>("search", "compose", { plan: planOf(this.d, this.choices!) }, "compose");
    if (!c) return;
    if (failed(c)) {
      this.trouble = c.error;
      this.loom = undefined;
      this.requestUpdate();
      return;
    }
    this.composed = c;
    if (this.d.step === 5) this.bench(c.text);
    else {
      const name = "new.yaml", text = c.text;
      const [loom, wishes] = await Promise.all([ask<OpenLoom>("edit", "open", { name, text }, "new"), ask<Wishes>("edit", "wishes", { name, text }, "new wishes")]);
      if (loom && !failed(loom)) this.loom = loom;
      if (wishes && !failed(wishes)) this.wishes = wishes;
    }
    this.requestUpdate();
    await this.updateComplete;
  }

  private bench(text: string): void {
    const { name } = store.state;
    const own = this.d.opened && this.d.opened === name;
    const to = own ? name : titleOf(this.d, this.choices!).toLowerCase().replace(/[^a-z0-9]+/g, "-").slice(0, 48).replace(/-$/, "") + ".yaml";
    if (own && bare(store.state.text) === bare(text)) return; // with its wires, if it has any by now
    openLoom(to, { text, mark: own ? store.state.mark : "" }, own ? store.state.saved : "");
    store.set({ mode: "new" });
    this.change({ opened: to });
  }

  /** fromBench takes back what was changed on the bench: parts, and what is asked. */
  private fromBench(): void {
    const { loom, name } = store.state;
    if (!loom || name !== this.d.opened) return;
    const d = this.d, is = new Map((loom.parts ?? []).map((p) => [p.name, p.is]));
    const pots = { ...d.pots };
    if (this.choices) for (const p of potsOf(d, schemeOf(d, this.choices), isSingle(d, this.choices))) pots[p.name] = { ...p, is: is.get(p.name) ?? p.is };
    const rows = loom.settings ?? [];
    this.d = {
      ...d, pots, switches: d.switches.map((s) => ({ ...s, is: is.get(s.name) ?? s.is })),
      sounds: Object.fromEntries(rows.map((r) => [r.name, r.wanted ? (d.sounds[r.name] || r.wanted.sound) : ""])),
    };
    keepPlan(this.d);
  }

  private foundSwitch = (e: CustomEvent<Told>): void => {
    const { name, step } = e.detail;
    const word = name.toLowerCase().replace(/[^a-z0-9]+/g, "-").replace(/^-|-$/g, "") || "unmarked";
    const id = `switch/${word}`.replace(/^switch\/(.*)$/, (_, w) => `switch/${this.look(`switch/${w}`) && !this.d.own[`switch/${w}`] ? w + "-own" : w}`);
    const own = { file: step.part!, choice: { ...step.choice!, id } };
    keepOwn(id, own);
    this.choices = { ...this.choices!, parts: [...this.choices!.parts!.filter((p) => p.id !== id), own.choice] };
    this.change({ own: { ...this.d.own, [id]: own }, switches: [...this.d.switches, { name: free(kindOf(id), this.d.switches.map((s) => s.name)), is: id }] });
    this.go(2);
  };

  private anew = (): void => {
    if (!this.sure) {
      this.sure = true;
      this.requestUpdate();
      return;
    }
    this.loom = this.composed = undefined;
    this.d = fresh();
    this.change({});
    this.go(0);
  };
}

/** bare is a loom without its joins. */
const bare = (text: string): string => text.replace(/\njoins:(\n {2,}[^\n]*)*|\njoins:[^\n]*/g, "").trim();

define("lw-new", New);
