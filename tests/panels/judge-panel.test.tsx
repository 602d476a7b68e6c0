// @vitest-environment happy-dom
import { act, cleanup, fireEvent, render, screen, within } from '@testing-library/react';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { withPayloadShape } from '../../src/document/edits/payload-shape.ts';
import { emptyDesign } from '../../src/document/empty-design.ts';
import type { Vec3 } from '../../src/math/vec3.ts';
import { JudgePanel } from '../../src/panels/judge/JudgePanel.tsx';
import { changeDocument, openDocument, undo } from '../../src/state/design/design-store.ts';
import { hullOf, payloadMeshStore, takeMesh } from '../../src/state/mesh/payload-mesh-store.ts';
import { designStore, sessionStore } from '../../src/state/stores.ts';

const design = emptyDesign();

beforeEach(() => {
  openDocument(designStore, design, 'Open', { fileName: null, saved: design });
  sessionStore.setState({ pose: null });
  render(<JudgePanel />);
});

afterEach(cleanup);

/** Opens a group; groups stay as they were left while the page lives. */
function open(title: RegExp) {
  const button = screen.getByRole('button', { name: title });
  if (button.getAttribute('aria-expanded') === 'false') fireEvent.click(button);
}

function enter(name: string, text: string) {
  const field = screen.getByRole('spinbutton', { name });
  fireEvent.change(field, { target: { value: text } });
  fireEvent.keyDown(field, { key: 'Enter' });
}

const fieldValue = (name: string) => screen.getByRole('spinbutton', { name }).getAttribute('value');

const figure = (label: RegExp) => screen.getByRole('button', { name: label });

describe('accuracy', () => {
  it('says that legs 0.05 mm off are assumed, and what they do', () => {
    open(/^Accuracy/);
    // 167 um and 104 mdeg: figures of common practice for this layout (see tests/headless/judgement.test.ts)
    expect(figure(/^Worst shift at the tool/).textContent).toContain('0.167 mm');
    expect(figure(/^Worst turn/).textContent).toContain('0.104 deg');
    expect(screen.getByText(/are assumed, as an example/)).toBeTruthy();
  });

  it('gives no figure and no advice next to a singular pose (yaw 90 deg for this layout)', () => {
    open(/^Accuracy/);
    const at = (yaw_deg: number) =>
      act(() =>
        sessionStore.setState({ pose: { position: [0, 0, 150], roll: 0, pitch: 0, yaw: (yaw_deg * Math.PI) / 180 } }),
      );
    at(89.99);
    expect(screen.getByText(/Too close to a singular pose for a first-order figure/)).toBeTruthy();
    expect(screen.queryByRole('button', { name: /^Worst/ })).toBeNull();
    expect(screen.queryByText(/a new zero/)).toBeNull();
    at(0);
    expect(figure(/^Worst turn/).textContent).toContain('0.104 deg');
    expect(screen.getByText(/a new zero/)).toBeTruthy();
  });

  it('opens how a number was computed, with its own values', () => {
    open(/^Accuracy/);
    fireEvent.click(figure(/^Worst shift at the tool/));
    expect(screen.getByText(/dx = J⁻¹ δ/).textContent).toContain('at most 0.159, 0.167, 0.0544 mm');
  });

  it('splits errors by source, largest first, and undoes an entry in one step', () => {
    open(/^Accuracy/);
    enter('Leg backlash', '0.3');
    const rows = within(screen.getByRole('table', { name: /^Worst shift by source/ })).getAllByRole('rowheader');
    expect(rows.map(({ textContent }) => textContent)).toEqual(['leg backlash', 'leg zero']);
    undo(designStore);
    expect(designStore.getState().document).toEqual(design);
  });
});

describe('load and forces', () => {
  it('shows six equal pushes at home, from the mass entered', () => {
    open(/^Load and forces/);
    enter('Payload mass', '2');
    const rows = within(screen.getByRole('table', { name: 'Force in each leg' })).getAllByRole('row');
    // W L / (6 h), check 10 of the reference list
    expect(rows.map(({ textContent }) => textContent)).toEqual(
      [1, 2, 3, 4, 5, 6].map((leg) => `Leg ${leg}3.56 N push`),
    );
  });

  it('refuses a negative mass and keeps the old one', () => {
    open(/^Load and forces/);
    enter('Payload mass', '-1');
    expect(screen.getByText(/Still 1\.0 kg/)).toBeTruthy();
    expect(designStore.getState().document.payload).toBeUndefined();
  });
});

describe('the centre of mass of an imported payload', () => {
  const corners_mm = [0, 30].flatMap((z): Vec3[] => [
    [0, 0, z],
    [30, 0, z],
    [0, 30, z],
  ]);
  const withHull = () =>
    act(() =>
      changeDocument(designStore, withPayloadShape(design, { hull: { corners_mm, source: 'wedge.stl' } }), 'Wedge'),
    );
  const centre = () => designStore.getState().document.payload?.centre_mm;

  it('is that of its hull as a uniform body, and says so', () => {
    open(/^Load and forces/);
    withHull();
    expect(screen.getByText(/^A mesh says nothing of mass: 1 kg is the number above/).textContent).toContain(
      'that of its hull as a uniform body',
    );
    expect(centre()).toBeUndefined();
    // centroid of a triangle: a third of the way along each leg
    expect(['x', 'y', 'z'].map((axis) => fieldValue(`Centre of mass ${axis}`))).toEqual(['10.0', '10.0', '15.0']);
  });

  it('is that of the closed mesh where the mesh is at hand, and says how it was computed', () => {
    open(/^Load and forces/);
    withHull();
    const hull = hullOf(designStore.getState().document);
    if (!hull) throw new Error('no hull');
    act(() =>
      takeMesh(payloadMeshStore, {
        hull,
        triangles: new Float32Array(9),
        // second moments of a box 30 x 30 x 15: V a^2 / 12
        solid: { volume: 13_500, centroid: [-4, -5, 1], second: [1_012_500, 1_012_500, 253_125, 0, 0, 100] },
      }),
    );
    fireEvent.click(screen.getByRole('button', { name: 'The closed mesh as a uniform body' }));
    expect(screen.getByText(/over the tetrahedra/).textContent).toMatch(/13\.5 cm³, centroid 11, 10, 16 mm.+closed/);
    fireEvent.click(screen.getByRole('button', { name: 'Use its centre and inertia' }));
    expect(centre()).toEqual([11, 10, 16]);
    // m (b^2 + c^2) / 12, and -yz
    const { inertia_kg_mm2 } = designStore.getState().document.payload ?? {};
    expect(inertia_kg_mm2?.slice(0, 3)).toEqual([(900 + 225) / 12, (900 + 225) / 12, (900 + 900) / 12]);
    expect(inertia_kg_mm2?.[5]).toBeCloseTo(-100 / 13_500, 8);
    act(() => undo(designStore));
    expect(centre()).toBeUndefined();
    act(() => payloadMeshStore.setState({ mesh: null }));
  });
});

it('asks for the stiffness of the legs before it says anything, then gives figures', () => {
  open(/^Stiffness/);
  fireEvent.click(screen.getByRole('button', { name: /^Start with 1000/ }));
  enter('Leg stiffness', '100');
  // level: K_zz = 6 k h^2 / L^2 = 506 N/mm (check 6 of the reference list); 9.80665 N sag it by 0.0194 mm
  expect(figure(/^Sag under the load/).textContent).toContain('0.0194 mm');
  fireEvent.click(figure(/^Weakest direction/));
  expect(screen.getByText(/K = Jᵀ diag\(k\) J/).textContent).toContain('k = 100 N/mm a leg');
});

it('adds a keep-out volume and names the pair that meets', () => {
  open(/^Clearance/);
  fireEvent.click(screen.getByRole('button', { name: 'Add a box' }));
  enter('Keep-out 1 middle x', '100');
  enter('Keep-out 1 size x', '80');
  expect(screen.getByRole('button', { name: /^leg [1-6] barrel to box 1.*they meet/ })).toBeTruthy();
  fireEvent.click(screen.getByRole('button', { name: 'Remove keep-out 1' }));
  expect(designStore.getState().document.keepOuts).toBeUndefined();
});
