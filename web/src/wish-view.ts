// What is wanted in the chosen setting: tapped from what these pickups can do,
// or put together from coils and words.
import { html, nothing } from "lit";
import { want } from "./act.js";
import { ask, failed } from "./core.js";
import "./pick-sound.js";
import { define, View } from "./view.js";
import type { Wishes } from "./types.gen.js";

class Wish extends View {
  private open = false;
  private wishes?: Wishes;
  private asked = "";

  render() {
    const s = this.state;
    const row = s.loom?.settings?.[s.chosen];
    if (!row || !s.readable) return nothing;
    return html`<details class="wish" ?open=${this.open} @toggle=${(e: Event) => ((this.open = (e.target as HTMLDetailsElement).open), this.requestUpdate())}>
      <summary>${row.wanted ? "Change what is wanted here" : "Say what is wanted here"}</summary>
      <p>With <strong>${row.name}</strong> ${row.wanted ? html`<em>${row.wanted.sound}</em> is wanted.` : "nothing is asked yet."} Tap what you want to hear:</p>
      <lw-picker .wishes=${this.wishes} .sound=${this.written(row.name)} .setting=${row.name} @sound=${(e: CustomEvent<string>) => want(row.name, e.detail)}></lw-picker>
    </details>`;
  }

  /** written is the wish as the text has it, for the mark on its button. */
  private written(setting: string): string {
    const line = this.state.text.split("\n").find((l) => l.includes(`with: "${setting}"`) || l.includes(`with: ${setting},`));
    return /hear: ([^,}]+)/.exec(line ?? "")?.[1].trim() ?? (this.state.loom?.settings?.[this.state.chosen]?.wanted ? "wanted" : "");
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
