// Out of the page: files, paper, a link.
import { html, nothing } from "lit";
import { link } from "./act.js";
import { ask, failed } from "./core.js";
import { maxLink } from "./link.js";
import { store } from "./store.js";
import { define, View } from "./view.js";
import type { Pictured } from "./types.gen.js";

const types: Record<string, string> = { svg: "image/svg+xml", png: "image/png", pdf: "application/pdf" };

class Export extends View {
  private page = "";
  private busy = "";
  private address = "";
  private done = "";

  render() {
    return html`<details class="export"><summary>Print, export, share</summary>
      <div class="row-of">
        <button class="main" ?disabled=${!!this.busy} @click=${() => this.picture("sheet")}>Build sheet as PDF</button>
        <label>Paper <select @change=${(e: Event) => (this.page = (e.target as HTMLSelectElement).value)}>
          ${[["a4", "A4"], ["letter", "Letter"]].map(([p, word]) => html`<option value=${p} ?selected=${p === this.paper}>${word}</option>`)}</select></label>
        <button @click=${() => window.print()}>Print this page</button>
        ${["svg", "png", "pdf"].map((k) => html`<button ?disabled=${!!this.busy} @click=${() => this.picture(k)}>Drawing as ${k.toUpperCase()}</button>`)}
        <button @click=${() => give(store.state.name || "loom.yaml", new Blob([store.state.text], { type: "application/yaml" }))}>Loom file</button>
        <button @click=${this.share}>A link that carries this loom</button>
      </div>
      ${this.busy ? html`<p role="status">${this.busy}</p>` : this.done ? html`<p role="status">✓ ${this.done} is made: look among your downloads.</p>` : nothing}
      ${this.address ? html`<label class="address">The link (${this.address.length} characters${this.address.length > maxLink ? ": long for some programs" : ""}). The loom is in it; nothing is sent anywhere.
        <textarea readonly rows="4" .value=${this.address} @focus=${(e: Event) => (e.target as HTMLTextAreaElement).select()}></textarea></label>` : nothing}
    </details>`;
  }

  /** paper is the one that was chosen, or else the habit's. */
  private get paper(): string {
    return this.page || (store.state.habit === "us" ? "letter" : "a4");
  }

  private async picture(kind: string): Promise<void> {
    const { name, text } = store.state;
    this.done = "";
    this.busy = kind === "svg" ? "Drawing …" : "Fetching the part that writes files, and drawing …";
    this.requestUpdate();
    const out = kind === "sheet" ? await this.sheet()
      : await ask<Pictured>(kind === "svg" ? "draw" : "paper", "draw", { name, text, kind, page: kind === "pdf" ? this.paper : "" });
    this.busy = "";
    this.requestUpdate();
    if (!out) return;
    if (failed(out)) {
      store.set({ trouble: out.error });
      return;
    }
    const data = out.svg ?? Uint8Array.from(atob(out.data ?? ""), (c) => c.charCodeAt(0));
    const end = kind === "sheet" ? "-sheet.pdf" : "." + kind;
    this.done = name.replace(/\.ya?ml$/, "").split("/").pop()! + end;
    this.requestUpdate();
    give(this.done, new Blob([data], { type: types[kind] ?? types.pdf }));
  }

  /** sheet asks for the build sheet; its QR code opens this loom on this page, in solder mode. */
  private async sheet() {
    const { name, text } = store.state;
    const base = location.href.split("#")[0];
    return ask<Pictured>("paper", "sheet", { name, text, page: this.paper, habit: store.state.habit, base, date: new Date().toISOString().slice(0, 10) });
  }

  private async share(): Promise<void> {
    this.address = await link();
    this.requestUpdate();
    await navigator.clipboard?.writeText(this.address).then(() => store.set({ says: "the link is copied" }), () => undefined);
  }
}

/** toPaper brings the person to what prints. */
export function toPaper(): void {
  store.set({ mode: "bench", panel: "text" });
  requestAnimationFrame(() => requestAnimationFrame(() => {
    const out = document.querySelector<HTMLDetailsElement>("lw-export details");
    if (!out) return;
    out.open = true;
    out.scrollIntoView({ block: "center" });
    out.querySelector<HTMLElement>("button")?.focus({ preventScroll: true });
  }));
}

/** give hands a file to the person. */
function give(name: string, blob: Blob): void {
  const a = document.createElement("a");
  a.href = URL.createObjectURL(blob);
  a.download = name.split("/").pop()!;
  a.click();
  setTimeout(() => URL.revokeObjectURL(a.href), 10_000);
}

define("lw-export", Export);
