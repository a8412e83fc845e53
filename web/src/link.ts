// A link that carries a loom in its fragment: nothing is sent anywhere. What is
// unpacked is bounded, whatever a link claims.
const maxUnpacked = 200_000;
export const maxLink = 2000;

export async function pack(text: string): Promise<string> {
  const packed = await collect(new Blob([text]).stream().pipeThrough(new CompressionStream("deflate-raw")), maxUnpacked);
  let binary = "";
  for (const b of packed) binary += String.fromCharCode(b);
  return btoa(binary).replaceAll("+", "-").replaceAll("/", "_").replace(/=+$/, "");
}

/** unpack reads what a link carries; with words, what was packed as if they had just been: they go before it as a stored block (RFC 1951, section 3.2.4). */
export async function unpack(code: string, words = ""): Promise<string> {
  if (code.length > maxUnpacked || !/^[\w-]*$/.test(code)) throw new Error("this link does not carry a loom");
  let binary: string;
  try {
    binary = atob(code.replaceAll("-", "+").replaceAll("_", "/"));
  } catch {
    throw new Error("this link is cut short");
  }
  const packed = Uint8Array.from(binary, (c) => c.charCodeAt(0));
  const before = new TextEncoder().encode(words);
  const n = before.length;
  const head = n ? [Uint8Array.of(0, n & 255, n >> 8, ~n & 255, (~n >> 8) & 255), before] : [];
  try {
    const out = await collect(new Blob([...head, packed]).stream().pipeThrough(new DecompressionStream("deflate-raw")), maxUnpacked + n);
    return new TextDecoder("utf-8", { fatal: true }).decode(out.subarray(n));
  } catch (fault) {
    throw fault instanceof RangeError ? fault : new Error("this link is cut short or damaged");
  }
}

// A loom's file name as the sheet's code has it: no folder, nothing hidden.
const plainName = /^[\p{L}\p{N}_][^/\\:?#%\p{C}]{0,200}\.ya?ml$/u;

/** beside fetches a loom that lies beside this page on its host. */
export async function beside(name: string): Promise<string> {
  if (!plainName.test(name)) throw new Error("this address names no loom: a plain file name ends in .yaml");
  const r = await fetch(encodeURIComponent(name), { cache: "no-store", redirect: "error" }).catch(() => undefined);
  if (!r?.ok || !r.body) throw new Error(`${name} is not kept in this browser, and ${r ? `does not lie beside this page (${r.status})` : "cannot be fetched from beside this page"}: open the loom file itself`);
  try {
    const text = new TextDecoder("utf-8", { fatal: true }).decode(await collect(r.body, maxUnpacked));
    if (/^parts[ \t]*:/m.test(text)) return text;
  } catch {
    // too large, or no text
  }
  throw new Error(`what lies beside this page as ${name} is no loom`);
}

async function collect(stream: ReadableStream<Uint8Array>, most: number): Promise<Uint8Array> {
  const reader = stream.getReader();
  const parts: Uint8Array[] = [];
  let size = 0;
  for (;;) {
    const { done, value } = await reader.read();
    if (done) break;
    size += value.length;
    if (size > most) {
      await reader.cancel();
      throw new RangeError("this link carries more than a loom");
    }
    parts.push(value);
  }
  const out = new Uint8Array(size);
  let at = 0;
  for (const p of parts) {
    out.set(p, at);
    at += p.length;
  }
  return out;
}
