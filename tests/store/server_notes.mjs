// Sends notes to a running server as fast as it answers, until it is gone, and writes down
// each that was answered. Usage: node server_notes.mjs PORT ROUND WAY, WAY notes (one request
// a note) or baked (the whole bake each time, as the page does).
import { appendFileSync, writeFileSync } from "node:fs";
import http from "node:http";

const [port, round, way] = process.argv.slice(2);
const agent = new http.Agent({ keepAlive: true, maxSockets: 1 });
const recipe = `Buns

500 g plain flour
300 ml milk
7 g instant yeast
8 g salt

Knead 10 minutes. Leave to rise until doubled. Bake at 190C for 20 minutes.`;

function ask(path, document) {
  const body = JSON.stringify(document);
  return new Promise((resolve, reject) => {
    const request = http.request(
      { agent, host: "127.0.0.1", port, path: `/api/v1/${path}`, method: "POST",
        headers: { "Content-Type": "application/json", "Content-Length": Buffer.byteLength(body) } },
      (answer) => {
        const parts = [];
        answer.on("data", (part) => parts.push(part));
        answer.on("error", reject);
        answer.on("aborted", () => reject(new Error("cut off")));
        answer.on("end", () => {
          if (answer.statusCode !== 200) {
            console.error(`${path}: ${answer.statusCode} ${Buffer.concat(parts)}`);
            process.exit(1);
          }
          resolve(JSON.parse(Buffer.concat(parts)));
        });
      });
    request.on("error", reject);
    request.end(body);
  });
}

const told = (note) => appendFileSync("answers", `{"text":"${note} "}\n`);

async function notes() {
  const { trial } = await ask("trials", { text: recipe });
  writeFileSync("trial", `${trial}`);
  for (let i = 1; ; ++i) {
    const note = `r${round}n${i}`;
    await ask(`trials/${trial}/notes`, { text: `${note} tacky`, key: note });
    told(note);
  }
}

async function baked() {
  const read = await ask("read", { text: recipe });
  const begun = Date.now();
  const bake = { maslin_baked: 1, key: `round${round}of${begun}`, title: "Buns", from: "page", recipe: read,
    kitchen: {}, started_at_ms: begun, entries: [] };
  for (let i = 1; ; ++i) {
    const note = `r${round}n${i}`;
    bake.entries.push({ key: `${bake.key}n${i}`, at_ms: begun + i, is: "note", text: `${note} tacky` });
    const { trial } = await ask("baked", bake);
    writeFileSync("trial", `${trial}`);
    told(note);
  }
}

// The server's end is what is waited for.
(way === "baked" ? baked() : notes()).catch(() => process.exit(0));
