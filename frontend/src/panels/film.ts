import { panel } from "./parts";
import type { Side } from "./tabs";

export function makeFilm(): Side {
  return { key: "film", name: "Film", body: panel("Film", ""), shown: () => {} };
}
