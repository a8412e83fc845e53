// What is wanted in the chosen setting: tapped from what these pickups can do,
// or put together from coils and words.
import { html, nothing } from "lit";
import { want } from "./act.js";
import { ask, failed } from "./core.js";
import { define, View } from "./view.js";
import type { Wishes } from "./types.gen.js";

class Wish extends View {
  private open = false;
  private wishes?: Wishes;
  private asked = "";
  private mine = "";

  render() {
    const s = this.state;
    const row = s.loom?.settings?.[s.chosen];
    if (!row || !s.readable) return nothing;
    return html`<details class="wish" ?open=${this.open} @toggle=${(e: Event) => ((this.open = (e.target as HTMLDetailsElement).open), this.requestUpdate())}>
      <summary>${row.wanted ? "Change what is wanted here" : "Say what is wanted here"}</summary>
      <p>With <strong>${row.name}</strong> ${row.wanted ? html`<em>${row.wanted.sound}</em> is wanted.` : "nothing is asked yet."} Tap what you want to hear:</p>
      ${(this.wishes?.groups ?? []).map((g) => html`<p class="group-name" id=${"wish-" + g.name.replace(/\W/g, "")}>${g.name}</p>
        <div class="chips" role="group" aria-labelledby=${"wish-" + g.name.replace(/\W/g, "")}>${(g.sounds ?? []).map((w) => html`<button
          aria-pressed=${this.written(row.name) === w} @click=${() => want(row.name, w)}>${w}</button>`)}</div>`)}
      <p class="group-name" id="wish-own">Or put it together</p>
      <div class="chips" role="group" aria-labelledby="wish-own">${(this.wishes?.words ?? []).map((w) => html`<button aria-label=${`add ${w}`} @click=${() => this.add(w)}>${w}</button>`)}</div>
      <div class="row-of"><input aria-label="The sound in words" .value=${this.mine} spellcheck="false" autocapitalize="off" autocomplete="off"
          @input=${(e: Event) => (this.mine = (e.target as HTMLInputElement).value)} @keydown=${(e: KeyboardEvent) => e.key === "Enter" && this.wantMine(row.name)}>
        <button @click=${() => this.wantMine(row.name)}>Want this</button>
        <button @click=${() => want(row.name, "")} ?disabled=${!row.wanted}>Ask nothing here</button></div>
    </details>`;
  }

  /** written is the wish as the text has it, for the mark on its button. */
  private written(setting: string): string {
    const line = this.state.text.split("\n").find((l) => l.includes(`with: "${setting}"`) || l.includes(`with: ${setting},`));
    return /hear: ([^,}]+)/.exec(line ?? "")?.[1].trim() ?? "";
  }

  private add(word: string): void {
    this.mine = `${this.mine} ${word}`.trim().replace("( ", "(").replace(" )", ")");
    this.requestUpdate();
  }

  private wantMine(setting: string): void {
    if (this.mine.trim()) void want(setting, this.mine.trim());
  }

  protected updated(): void {
    const { name, text, readable } = this.state;
    const parts = JSON.stringify((this.state.loom?.parts ?? []).map((p) => [p.name, p.is]));
    if (!this.open || !readable || parts === this.asked) return;
    this.asked = parts;
    void ask<Wishes>("edit", "wishes", { name, text }, "wishes").then((w) => {
      if (w && !failed(w)) this.wishes = w;
      this.requestUpdate();
    });
  }
}

define("lw-wish", Wish);
