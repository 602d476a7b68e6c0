// @vitest-environment happy-dom
import { cleanup, fireEvent, render, screen } from '@testing-library/react';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { ErrorBoundary } from '../../src/app/ErrorBoundary.tsx';
import { DeskProvider } from '../../src/app/files/desk-context.ts';
import { FileDesk } from '../../src/app/files/file-desk.ts';
import { createDesignStore } from '../../src/state/design/design-store.ts';
import { createDialogStore } from '../../src/state/session/dialog-store.ts';
import { createNoticesStore } from '../../src/state/session/notices-store.ts';
import { sampleDesign } from '../state/sample-design.ts';

function Fragile({ health }: { readonly health: { readonly broken: boolean } }) {
  if (health.broken) throw new Error('a number went missing');
  return <p>all is well</p>;
}

const makeDesk = () =>
  new FileDesk({
    design: createDesignStore(sampleDesign),
    dialog: createDialogStore(),
    notices: createNoticesStore(),
  });

beforeEach(() => {
  // React reports a caught error to the console; here it is thrown on purpose
  vi.spyOn(console, 'error').mockImplementation(() => undefined);
});

afterEach(() => {
  cleanup();
  vi.restoreAllMocks();
});

describe('the error boundary', () => {
  it('names the part and the reason, offers saving, and tries again', () => {
    const desk = makeDesk();
    const saveAs = vi.spyOn(desk, 'saveAs').mockResolvedValue();
    const health = { broken: true };
    render(
      <DeskProvider value={desk}>
        <ErrorBoundary part="The panel">
          <Fragile health={health} />
        </ErrorBoundary>
      </DeskProvider>,
    );
    expect(screen.getByRole('alert').textContent).toContain('The panel stopped working.');
    expect(screen.getByRole('alert').textContent).toContain('a number went missing');
    fireEvent.click(screen.getByRole('button', { name: 'Save the design' }));
    expect(saveAs).toHaveBeenCalledOnce();
    health.broken = false;
    fireEvent.click(screen.getByRole('button', { name: 'Try again' }));
    expect(screen.queryByRole('alert')).toBe(null);
    expect(screen.getByText('all is well')).toBeTruthy();
  });
});

describe('the file desk', () => {
  it('keeps the open design and lists the faults of a bad file', async () => {
    const stores = {
      design: createDesignStore(sampleDesign),
      dialog: createDialogStore(),
      notices: createNoticesStore(),
    };
    const desk = new FileDesk(stores);
    const opened = await desk.openFile(new File(['{"format": "something-else"}'], 'other.json'));
    expect(opened).toBe(false);
    expect(stores.design.getState().document).toBe(sampleDesign);
    expect(stores.dialog.getState().open).toMatchObject({
      kind: 'faults',
      fileName: 'other.json',
      faults: [{ path: 'format', value: '"something-else"', limit: '"legroom-design"' }],
    });
  });

  it('opens a good file as one undo step and says so', async () => {
    const stores = {
      design: createDesignStore(sampleDesign),
      dialog: createDialogStore(),
      notices: createNoticesStore(),
    };
    const text = JSON.stringify({ ...sampleDesign, name: 'From a file' });
    expect(await new FileDesk(stores).openFile(new File([text], 'work.json'))).toBe(true);
    expect(stores.design.getState()).toMatchObject({ document: { name: 'From a file' }, label: 'Open work.json' });
    expect(stores.design.temporal.getState().pastStates).toHaveLength(1);
    expect(stores.notices.getState().announcement).toContain('Opened work.json');
  });
});
