import { panel } from "./parts";
import type { Side } from "./tabs";

export function makeDraft(): Side {
  return { key: "draft", name: "Draft", body: panel("Draft", ""), shown: () => {} };
}
