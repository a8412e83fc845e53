// A sound put together by tapping: what these pickups can do, or coils and
// words one after another. Brackets come by themselves.
import { html, nothing } from "lit";
import { heardAs, inWords, strip } from "./coils.js";
import { define, View } from "./view.js";
import type { Wishes } from "./types.gen.js";

const joins = ["series", "parallel"];

/** sentence writes taps as a sound: what is joined differently goes into brackets. */
export function sentence(taps: string[]): string {
  let out = "", how = "", next = "", reversed = "";
  for (const t of taps) {
    if (joins.includes(t)) next = t;
    else if (t === "reversed") reversed = reversed ? "" : "reversed ";
    else {
      const op = next || how || "parallel";
      out = !out ? reversed + t : how && how !== op ? `(${out}) ${op} ${reversed}${t}` : `${out} ${op} ${reversed}${t}`;
      how = out.includes(" " + op + " ") ? op : "";
      next = reversed = "";
    }
  }
  return `${out}${next ? ` ${next} …` : ""}${reversed ? " out of phase with …" : ""}`;
}

class Picker extends View {
  static properties = { wishes: { attribute: false }, sound: { attribute: false }, setting: { attribute: false } };
  declare wishes?: Wishes;
  declare sound: string; // as it is wanted now
  declare setting: string;
  private taps: string[] = [];
  private typed = "";

  render() {
    const coils = this.coils();
    const id = (w: string) => `pick-${w.replace(/\W/g, "")}`;
    return html`${(this.wishes?.groups ?? []).map((g) => html`<p class="group-name" id=${id(g.name)}>${g.name}</p>
        <div class="chips" role="group" aria-labelledby=${id(g.name)}>${(g.sounds ?? []).map((w) => html`<button
          aria-pressed=${this.sound === w} @click=${() => this.choose(w)}>${strip(heardAs(w, coils))}${inWords(w)}</button>`)}</div>`)}
      <p class="group-name" id="wish-own">Or put it together: a coil, a word, a coil …</p>
      <div class="chips" role="group" aria-labelledby="wish-own">${coils.map((w) => this.tap(w, w))}${joins.map((w) => this.tap(w, w, "word"))}${this.tap("reversed", "out of phase", "word")}</div>
      <div class="row-of"><input aria-label="The sound in words" .value=${this.typed} spellcheck="false" autocapitalize="off" autocomplete="off"
          @input=${(e: Event) => ((this.typed = (e.target as HTMLInputElement).value), (this.taps = []), this.requestUpdate())} @keydown=${(e: KeyboardEvent) => e.key === "Enter" && this.choose(this.typed)}>
        <button @click=${() => this.choose(this.typed)} ?disabled=${!this.typed.trim()}>Want this</button>
        <button @click=${this.back} ?disabled=${!this.taps.length}>Take the last one back</button>
        <button @click=${() => this.choose("")} ?disabled=${!this.sound}>Ask nothing here</button></div>`;
  }

  private tap(word: string, shown: string, kind = "") {
    return html`<button class=${kind || nothing} aria-label=${`add ${shown}`} @click=${() => this.add(word)}>${shown}</button>`;
  }

  private coils(): string[] {
    return (this.wishes?.words ?? []).filter((w) => ![...joins, "reversed", "(", ")"].includes(w));
  }

  private add(word: string): void {
    this.taps = joins.includes(word) && (joins.includes(this.taps.at(-1) ?? "") || !this.taps.length) ? this.taps.slice(0, -1) : this.taps;
    if (joins.includes(word) && !this.taps.length) return;
    this.taps = [...this.taps, word];
    this.typed = sentence(this.taps);
    this.requestUpdate();
  }

  private back(): void {
    this.taps = this.taps.slice(0, -1);
    this.typed = sentence(this.taps);
    this.requestUpdate();
  }

  private choose(sound: string): void {
    const said = sound.replace(/ (series|parallel|out of phase with)? ?…/g, "").trim();
    this.taps = [];
    this.typed = "";
    this.requestUpdate();
    this.dispatchEvent(new CustomEvent("sound", { detail: said }));
  }
}

define("lw-picker", Picker);
