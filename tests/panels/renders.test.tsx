// @vitest-environment happy-dom
import { act, cleanup, render } from '@testing-library/react';
import { Profiler, type ReactNode } from 'react';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { changeHome, changeLegs, changeRing, changeTool, type Edit } from '../../src/document/edits/edit.ts';
import { changeFloor } from '../../src/document/edits/floors.ts';
import { emptyDesign } from '../../src/document/empty-design.ts';
import { JointsGroup } from '../../src/panels/design/JointsGroup.tsx';
import { LegsGroup } from '../../src/panels/design/LegsGroup.tsx';
import { PlateGroup } from '../../src/panels/design/PlateGroup.tsx';
import { HomeGroup, ToolGroup } from '../../src/panels/design/PoseGroups.tsx';
import { previewEdit } from '../../src/panels/design-binding.ts';
import { FloorsGroup } from '../../src/panels/judge/FloorsGroup.tsx';
import { PosePanel } from '../../src/panels/pose/PosePanel.tsx';
import { liveDocument, openDocument } from '../../src/state/design/design-store.ts';
import { designStore } from '../../src/state/stores.ts';

const commits = new Map<string, number>();

const Counted = ({ id, children }: { readonly id: string; readonly children: ReactNode }) => (
  <Profiler id={id} onRender={(name) => commits.set(name, (commits.get(name) ?? 0) + 1)}>
    {children}
  </Profiler>
);

const PARTS = {
  base: <PlateGroup plate="base" />,
  platform: <PlateGroup plate="platform" />,
  legs: <LegsGroup />,
  joints: <JointsGroup />,
  tool: <ToolGroup />,
  home: <HomeGroup />,
  floors: <FloorsGroup />,
  pose: <PosePanel />,
} as const;

beforeEach(() => {
  const design = emptyDesign();
  openDocument(designStore, design, 'Open', { fileName: null, saved: design });
});

afterEach(cleanup);

/** Which of the groups commit anything while a slider goes through some values. */
function rendered(drag: (value: number) => Edit): readonly string[] {
  render(
    Object.entries(PARTS).map(([id, part]) => (
      <Counted key={id} id={id}>
        {part}
      </Counted>
    )),
  );
  // the first move marks what is known as out of date, once
  act(() => void previewEdit(drag(1)));
  commits.clear();
  for (let value = 2; value <= 6; value++) act(() => void previewEdit(drag(value)));
  return [...commits.keys()].sort();
}

type Drag = (value: number) => Edit;

const DRAGS: readonly (readonly [string, Drag, readonly string[]])[] = [
  ['base radius', (value) => (design) => changeRing(design, 'base', { radius_mm: 100 + value }), ['base']],
  ['platform height', (value) => (design) => changeRing(design, 'platform', { jointHeight_mm: value }), ['platform']],
  // where the pose's own sliders go depends on the stroke
  ['shortest leg', (value) => (design) => changeLegs(design, { min_mm: 100 + value }), ['legs', 'pose']],
  // the pose stands at home
  ['home height', (value) => (design) => changeHome(design, 2, 150 + value), ['home', 'pose']],
  ['tool point', (value) => (design) => changeTool(design, 0, value), ['tool']],
  ['a floor', (value) => (design) => changeFloor(design, 'clearance', value), ['floors']],
];

describe('what a slider does not touch renders nothing', () => {
  it.each(DRAGS)('%s', (_, drag, expected) => {
    expect(rendered(drag)).toEqual(expected);
  });

  it('shares with the design before all that did not change', () => {
    const before = liveDocument(designStore.getState());
    previewEdit((design) => changeRing(design, 'base', { radius_mm: 123 }));
    const now = liveDocument(designStore.getState());
    const kept = Object.entries(before).filter(([name]) => name !== 'base');
    expect(Object.entries(now).filter(([name]) => name !== 'base')).toEqual(kept);
    for (const [name, part] of kept) expect(new Map(Object.entries(now)).get(name), name).toBe(part);
    expect(now.base).not.toBe(before.base);
  });
});
