// The piece in 3-D: three.js, loaded only when this view is opened. Turned by pointer and by keys.

import {
  AmbientLight, Box3, BufferAttribute, BufferGeometry, Color, DirectionalLight, DoubleSide, HemisphereLight, Mesh, MeshStandardMaterial, PerspectiveCamera, Scene, Sphere, SRGBColorSpace, Vector3, WebGLRenderer, Group,
} from "three";
import { OrbitControls } from "three/examples/jsm/controls/OrbitControls.js";
import { fill, h } from "../dom";

export interface Shape3d {
  parts: string[];
  part: number;
  told: string;
  why?: string;
  round?: boolean;
  meshes: { yarn: string; colour: string; points: string; faces: string }[] | null;
}

function bytes(base64: string): ArrayBuffer {
  const text = atob(base64);
  const out = new Uint8Array(text.length);
  for (let i = 0; i < text.length; i += 1) out[i] = text.charCodeAt(i);
  return out.buffer;
}

/** Show a piece in `box`; what comes back stops it and frees its memory. */
export function show3d(box: HTMLElement, shape: Shape3d): () => void {
  const canvas = h("canvas", { tabindex: "0", role: "img", "aria-label": `The piece in 3-D. ${shape.told} Turn it with the arrow keys, nearer and farther with + and −, back with 0.` });
  fill(box, canvas);
  let renderer: WebGLRenderer;
  try {
    renderer = new WebGLRenderer({ canvas, antialias: true, alpha: true });
  } catch {
    fill(box, h("p", { class: "empty" }, "This browser cannot show 3-D. The outline tells the same measures."));
    return () => {};
  }
  renderer.outputColorSpace = SRGBColorSpace;
  renderer.setPixelRatio(Math.min(2, devicePixelRatio));
  const scene = new Scene();
  const piece = new Group();
  for (const one of shape.meshes ?? []) {
    const geometry = new BufferGeometry();
    geometry.setAttribute("position", new BufferAttribute(new Float32Array(bytes(one.points)), 3));
    geometry.setIndex(new BufferAttribute(new Uint32Array(bytes(one.faces)), 1));
    geometry.computeVertexNormals();
    piece.add(new Mesh(geometry, new MeshStandardMaterial({ color: new Color(one.colour), roughness: 0.92, metalness: 0, side: DoubleSide })));
  }
  if (shape.round) piece.rotation.x = -Math.PI / 2;
  scene.add(piece, new HemisphereLight(0xffffff, 0xb8a98c, 1.5), new AmbientLight(0xffffff, 0.35));
  const sun = new DirectionalLight(0xffffff, 2.1);
  scene.add(sun);
  const sphere = new Box3().setFromObject(piece).getBoundingSphere(new Sphere());
  const camera = new PerspectiveCamera(32, 1, sphere.radius / 100, sphere.radius * 20);
  const controls = new OrbitControls(camera, canvas);
  controls.enablePan = true;
  const home = (): void => {
    controls.target.copy(sphere.center);
    const away = sphere.radius / Math.sin((16 * Math.PI) / 180);
    camera.position.copy(sphere.center).add(new Vector3(shape.round ? 0.35 : 0.16, shape.round ? 0.5 : -0.28, 1).normalize().multiplyScalar(away * 1.04));
    controls.update();
    draw();
  };
  const draw = (): void => {
    sun.position.copy(camera.position).add(new Vector3(sphere.radius, sphere.radius * 1.6, 0));
    renderer.render(scene, camera);
  };
  const fit = (): void => {
    const wide = box.clientWidth;
    const high = box.clientHeight;
    if (!wide || !high) return;
    renderer.setSize(wide, high, false);
    camera.aspect = wide / high;
    camera.updateProjectionMatrix();
    draw();
  };
  const turn = (across: number, up: number): void => {
    const from = camera.position.clone().sub(controls.target);
    from.applyAxisAngle(new Vector3(0, 1, 0), across);
    const side = new Vector3(0, 1, 0).cross(from).normalize();
    const turned = from.clone().applyAxisAngle(side, up);
    if (Math.abs(turned.clone().normalize().y) < 0.995) from.copy(turned);
    camera.position.copy(controls.target).add(from);
    controls.update();
    draw();
  };
  canvas.addEventListener("keydown", (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const step = Math.PI / 18;
    const acts: Record<string, () => void> = {
      ArrowLeft: () => turn(-step, 0),
      ArrowRight: () => turn(step, 0),
      ArrowUp: () => turn(0, -step),
      ArrowDown: () => turn(0, step),
      "+": () => (camera.position.lerp(controls.target, 0.15), draw()),
      "=": () => (camera.position.lerp(controls.target, 0.15), draw()),
      "-": () => (camera.position.lerp(controls.target, -0.18), draw()),
      "0": home,
    };
    const act = acts[event.key];
    if (!act) return;
    event.preventDefault();
    act();
  });
  controls.addEventListener("change", draw);
  const watch = new ResizeObserver(fit);
  watch.observe(box);
  fit();
  home();
  canvas.dataset["ready"] = "yes";
  return () => {
    watch.disconnect();
    controls.dispose();
    for (const child of piece.children)
      if (child instanceof Mesh) {
        (child.geometry as BufferGeometry).dispose();
        (child.material as MeshStandardMaterial).dispose();
      }
    renderer.dispose();
    fill(box);
  };
}
