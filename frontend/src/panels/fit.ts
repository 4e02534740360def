import { panel } from "./parts";
import type { Side } from "./tabs";

export function makeFit(): Side {
  return { key: "fit", name: "Fit", body: panel("Fit", ""), shown: () => {} };
}
