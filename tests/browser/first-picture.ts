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
    const whole = (canvas: HTMLCanvasElement): boolean => {
      const data = canvas.getContext('2d')?.getImageData(0, 0, canvas.width, canvas.height).data;
      if (!data) return false;
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
