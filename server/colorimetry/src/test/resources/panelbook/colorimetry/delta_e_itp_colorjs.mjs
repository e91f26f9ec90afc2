// Prints delta E ITP of the pairs in delta_e_itp_pairs.csv as the npm library colorjs.io works it out.
import Color from "colorjs.io";
import { readFileSync } from "node:fs";

console.log("pair,dE_colorjs");
for (const line of readFileSync(process.argv[2], "utf8").split("\n")) {
  const m = line.match(/^("[^"]*"),([^,]+),([^,]+),([^,]+),([^,]+),([^,]+),([^,]+),/);
  if (!m) continue;
  const xyz = m.slice(2).map(Number);
  const a = new Color("xyz-abs-d65", xyz.slice(0, 3));
  const b = new Color("xyz-abs-d65", xyz.slice(3));
  console.log(`${m[1]},${a.deltaE(b, "ITP")}`);
}
