import { panel } from "./parts";
import type { Side } from "./tabs";

export function makeYarn(): Side {
  return { key: "yarn", name: "Yarn", body: panel("Yarn", ""), shown: () => {} };
}
