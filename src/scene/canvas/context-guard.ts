import { WebGLRenderer } from 'three';
import { sessionStore } from '../../state/stores.ts';

/** Events of a canvas whose drawing context comes and goes. */
const LOST = 'webglcontextlost';
const RESTORED = 'webglcontextrestored';

/**
 * Says when the drawing is lost and when it is back. The browser restores a context only where the loss was answered with
 * preventDefault; three.js then makes its resources again as they are drawn.
 */
export function guardContext(canvas: HTMLCanvasElement, onRestored: () => void): () => void {
  const lost = (event: Event) => {
    event.preventDefault();
    sessionStore.setState({ drawing: 'lost' });
  };
  const restored = () => {
    sessionStore.setState({ drawing: 'ready' });
    onRestored();
  };
  canvas.addEventListener(LOST, lost);
  canvas.addEventListener(RESTORED, restored);
  return () => {
    canvas.removeEventListener(LOST, lost);
    canvas.removeEventListener(RESTORED, restored);
  };
}

/** How the drawing's context is asked for; depth for what hides what, several samples a pixel for smooth lines. */
const CONTEXT = { antialias: true, alpha: true, depth: true, stencil: false, powerPreference: 'default' } as const;

/**
 * Makes the renderer on the canvas's own context. Whether there is WebGL 2 is found out by asking for that one: trying another
 * first would make the page wait for the graphics process twice. Where there is none, `onUnavailable` is told and the promise
 * never settles, since there is nothing to draw with.
 */
export async function makeRenderer(canvas: EventTarget, onUnavailable: () => void): Promise<WebGLRenderer> {
  if (canvas instanceof HTMLCanvasElement) {
    const context = canvas.getContext('webgl2', CONTEXT);
    if (context instanceof WebGL2RenderingContext)
      return new WebGLRenderer({ ...CONTEXT, alpha: false, canvas, context });
  }
  onUnavailable();
  return new Promise<WebGLRenderer>(() => undefined);
}
