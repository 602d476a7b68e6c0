// @vitest-environment happy-dom
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { cleanup, fireEvent, render, screen } from '@testing-library/react';
import { afterEach, describe, expect, it } from 'vitest';
import { PlaceLinks } from '../../src/app/places/PlaceLinks.tsx';
import { PLACES } from '../../src/app/places/places.ts';
import { goTo, placeStore } from '../../src/app/places/present-place.ts';
import { sessionStore } from '../../src/state/stores.ts';
import { sampleDesign } from '../state/sample-design.ts';

const SOURCES = readdirSync('src', { recursive: true, encoding: 'utf8' }).filter((path) => /\.tsx?$/.test(path));
const source = (path: string): string => readFileSync(join('src', path), 'utf8');
const ids: readonly string[] = PLACES.map(({ id }) => id);

afterEach(() => {
  cleanup();
  placeStore.setState(placeStore.getInitialState());
});

describe('the places', () => {
  it('begin with one that is in the table, and each has a name of its own', () => {
    expect(ids).toContain(placeStore.getState().place);
    expect(new Set(ids).size).toBe(ids.length);
    expect(new Set(PLACES.map(({ title }) => title)).size).toBe(ids.length);
  });

  it('are named in the source only by ids that the table has', () => {
    const named = SOURCES.flatMap((path) => [...source(path).matchAll(/\bgoTo\('([^']*)'\)/g)].map(([, id]) => id));
    expect(named.filter((id) => !ids.includes(id ?? ''))).toEqual([]);
  });

  it.each(PLACES)('$title: a link in the header opens it, and nothing stays pointed at', ({ id, title }) => {
    placeStore.setState({ place: 'elsewhere' });
    sessionStore.setState({ hovered: sampleDesign });
    render(<PlaceLinks />);
    fireEvent.click(screen.getByRole('button', { name: title }));
    expect(placeStore.getState().place).toBe(id);
    expect(sessionStore.getState().hovered).toBeNull();
    expect(screen.getByRole('button', { current: 'page' }).textContent).toBe(title);
  });

  it.each(PLACES)('$title: its skip link leads to an element of its folder that can take the focus', ({ id, skip }) => {
    const own = SOURCES.filter((path) => path.startsWith(join('app', 'places', id)));
    const targets = own.flatMap((path) => source(path).match(new RegExp(`id="${skip.to}" tabIndex={-1}`, 'g')) ?? []);
    expect(targets.length).toBeGreaterThan(0);
  });

  it('can be opened from within a place', () => {
    goTo('explore');
    expect(placeStore.getState().place).toBe('explore');
  });
});
