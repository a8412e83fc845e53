// Where a person begins: new, kept, a file, an example.
import { html, nothing } from "lit";
import { openLoom } from "./act.js";
import { say } from "./habit.js";
import { dropLeft, leftDraft, type Left } from "./keep.js";
import { keptDraft, used, type Draft } from "./plan.js";
import { store } from "./store.js";
import { define, View } from "./view.js";
import type { Start } from "./types.gen.js";

const largest = 4 << 20;

class Open extends View {
  private names: string[] = [];

  connectedCallback(): void {
    super.connectedCallback();
    void store.state.shelf?.list().then((names) => {
      this.names = names;
      this.requestUpdate();
    });
  }

  protected updated(): void {
    if (this.state.shelf && !this.asked) {
      this.asked = true;
      void this.state.shelf.list().then((n) => ((this.names = n), this.requestUpdate()));
    }
  }
  private asked = false;

  render() {
    const s = this.state;
    if (!s.begin) return html`<p class="lone">Opening the core …</p>`;
    const left = leftDraft();
    const kept = begun(keptDraft());
    const examples = s.begin.examples ?? [];
    return html`
      <div class="front">
        <h1>The wiring of an electric guitar, proved before the iron is hot</h1>
        <p class="lead">A loom is one short text: the parts, which terminals are joined, and what you want to hear.
          From it come every switch setting with its sound, a drawing to solder from, the order of the joints, and what a meter should read.
          All of it is worked out on this device; nothing is sent anywhere.</p>
        ${left ? html`<p class="notice">An unsaved loom was left here: ${left.name}.
          <button @click=${() => goOn(left)}>Go on with it</button> <button @click=${() => (dropLeft(left), this.requestUpdate())}>Throw it away</button></p>` : nothing}
        <section aria-labelledby="new-head">
          <h2 id="new-head">Begin a new loom</h2>
          <p><button class="main" @click=${() => store.set({ mode: "new" })}>${kept ? `Go on putting together: ${kept}` : "Put one together, step by step"}</button></p>
          <p>Or choose the guitar that comes nearest. It begins with parts and wanted sounds, and no wire yet.</p>
          <ul class="cards">${(s.begin.starts ?? []).map((e) => html`<li><button @click=${() => begin(e)}>${capital(e.says)}</button></li>`)}</ul>
        </section>
        <section aria-labelledby="kept-head">
          <h2 id="kept-head">${s.shelf?.kind === "folder" ? "In the folder" : "Kept in this browser"}</h2>
          ${this.names.length === 0 ? html`<p>${s.shelf?.kind === "folder" ? "This folder has no loom yet." : "Nothing yet. What you save appears here; export a file now and then, since browsers may clear what they keep."}</p>`
            : html`<ul class="files">${this.names.map((n) => html`<li><button @click=${() => openKept(n)}>${n}</button></li>`)}</ul>`}
          <p><label class="file">Open a loom file from this device <input type="file" accept=".yaml,.yml,text/yaml" @change=${openFile}></label></p>
        </section>
        <section aria-labelledby="ex-head">
          <h2 id="ex-head">Look at an example</h2>
          <p>From Saltmarsh Bench, an invented repair counter: finished looms, wired and proved.</p>
          <ul class="cards">${examples.filter((e) => !e.name.includes("/")).map(example)}</ul>
          <details><summary>Looms with one mistake each</summary><ul class="cards">${examples.filter((e) => e.name.includes("/")).map(example)}</ul></details>
        </section>
        <lw-cautions></lw-cautions>
      </div>`;
  }
}

/** begun says what a draft is of; "": nothing yet. */
const begun = (d?: Draft): string => (d && used(d).length ? d.title || `${used(d).join(", ")} (step ${d.step + 1} of 6)` : "");

const capital = (w: string) => w.charAt(0).toUpperCase() + w.slice(1);

const example = (e: Start) => html`<li><button @click=${() => openLoom(e.name, { text: e.text, mark: "" })}>${capital(e.says.replace("Saltmarsh Bench, ", ""))}</button></li>`;

function goOn(d: Left): void {
  dropLeft(d);
  openLoom(d.name, { text: d.text, mark: d.mark }, d.saved);
}

function begin(e: Start): void {
  openLoom(`${e.name}.yaml`, { text: e.text, mark: "" }, "");
}

async function openKept(name: string): Promise<void> {
  const kept = await store.state.shelf?.read(name);
  if (kept) openLoom(name, kept);
  else store.set({ trouble: `${name} cannot be read` });
}

async function openFile(e: Event): Promise<void> {
  const file = (e.target as HTMLInputElement).files?.[0];
  if (!file) return;
  if (file.size > largest) store.set({ trouble: `${file.name} is larger than any loom file` });
  else openLoom(file.name, { text: await file.text(), mark: "" }, "");
}

class Cautions extends View {
  render() {
    return html`<aside class="caution" aria-label="Cautions">
      <p><strong>Before you solder:</strong> unplug the guitar. Work in moving air, away from your face; wear eye protection; wash your hands after leaded solder. The iron burns skin and lacquer: stand it in its holder. Cut wire ends away from eyes.</p>
      <p>${say("The strings are joined to ground so that hum stays low; they do not make an amplifier safe.")} Inside a mains amplifier is work for licensed practice. Local codes come first.</p>
    </aside>`;
  }
}

define("lw-cautions", Cautions);
define("lw-open", Open);
