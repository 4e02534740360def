export interface Shape3d {
  parts: string[];
  part: number;
  told: string;
  why?: string;
  points: number[] | null;
}
export function show3d(_box: HTMLElement, _shape: Shape3d): () => void {
  return () => {};
}
