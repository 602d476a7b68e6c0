import type { Page } from '@playwright/test';

declare global {
  interface Window {
    /** Time from the click that started the sweep to a heat map without an empty cell [ms]; null until then. */
    firstPicture: number | null;
  }
}

/** Has the page itself note when the whole heat map is first there: this side of the connection would count its own waiting. */
export const timeFirstPicture = (page: Page): Promise<void> =>
  page.evaluate(() => {
    // a copy is read, so that the page's own canvas stays as it is
    const copy = document.createElement('canvas');
    const whole = (canvas: HTMLCanvasElement): boolean => {
      const { width, height } = canvas;
      const context = copy.getContext('2d', { willReadFrequently: true });
      if (!context || width * height === 0) return false;
      copy.width = width;
      copy.height = height;
      context.drawImage(canvas, 0, 0);
      const { data } = context.getImageData(0, 0, width, height);
      for (let at = 3; at < data.length; at += 4) if (data[at] === 0) return false;
      return true;
    };
    window.firstPicture = null;
    const onClick = (event: Event) => {
      if (!(event.target instanceof HTMLElement) || event.target.textContent !== 'Start the sweep') return;
      removeEventListener('click', onClick, true);
      const began = performance.now();
      const look = () => {
        const canvas = document.querySelector<HTMLCanvasElement>('[aria-label="Heat map"] canvas');
        if (canvas && whole(canvas)) window.firstPicture = performance.now() - began;
        else setTimeout(look, 10);
      };
      look();
    };
    addEventListener('click', onClick, true);
  });
