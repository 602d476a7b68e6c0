import { command } from '../headless/command.ts';

/** What the tests read of a line that the verb prints. */
export interface PrintedLine {
  readonly quantity: string;
  readonly axis?: string;
  readonly unit: string;
  readonly asked: number | null;
  readonly limit: number | null;
  readonly margin: number | null;
  readonly meets: boolean | null;
  readonly leg: number | null;
  readonly pose: PrintedPose | null;
  readonly certainty: string;
  readonly bound: number | null;
  readonly note?: string;
}

export interface PrintedPose {
  readonly position_mm: readonly [number, number, number];
  readonly roll_deg: number;
  readonly pitch_deg: number;
  readonly yaw_deg: number;
}

export interface PrintedRequirement {
  readonly name: string;
  readonly must: boolean;
  readonly meets: boolean;
  readonly margin: number | null;
  readonly tau: number | null;
  readonly lines: readonly PrintedLine[];
}

export interface PrintedTask {
  readonly meets: boolean;
  readonly margin: number | null;
  readonly tau: number | null;
  readonly requirements: readonly PrintedRequirement[];
}

/** A symmetric pair of rings as a design file: radii, gaps [deg], height of the tool point, and what differs. */
export function rings(
  [R, r]: readonly [number, number],
  [baseGap, platformGap]: readonly [number, number],
  height: number,
  more: object = {},
): object {
  const ring = (radius_mm: number, gap_deg: number) => ({
    ring: { radius_mm, gap_deg, turn_deg: 0, jointHeight_mm: 0 },
  });
  const joint = { kind: 'ball', tilt_deg: 90, mount: 'aimed' };
  return {
    format: 'legroom-design',
    version: 1,
    base: ring(R, baseGap),
    platform: ring(r, platformGap),
    legs: { min_mm: 120, max_mm: 200, barrelDiameter_mm: 10, rodDiameter_mm: 5 },
    joints: { base: joint, platform: joint },
    tool: { point_mm: [0, 0, 0] },
    home: { position_mm: [0, 0, height], roll_deg: 0, pitch_deg: 0, yaw_deg: 0 },
    ...more,
  };
}

/** Radius 100 and 70 mm, gaps 20 and 20 deg, 150 mm high: the layout that the closed forms are worked for. */
export const REFERENCE = (more: object = {}): object => rings([100, 70], [20, 20], 150, more);

/** Runs the verb on a design with requirements. */
export async function judge(design: object, requirements: readonly object[], ...options: readonly string[]) {
  const named = requirements.map((requirement, n) => ({ name: `${n + 1}`, ...requirement }));
  const text = JSON.stringify({ ...design, task: { requirements: named } });
  const { code, out, err } = await command(['task', '-', ...options], text);
  if (code === 2) throw new Error(err);
  const task: PrintedTask = JSON.parse(out);
  return { code, task, err };
}

/** The only requirement of a design. */
export async function judgeOne(design: object, requirement: object): Promise<PrintedRequirement> {
  const { task } = await judge(design, [requirement]);
  return task.requirements[0];
}

/** A line of a requirement, which must be there. */
export function line({ lines }: PrintedRequirement, quantity: string, axis?: string): PrintedLine {
  const found = lines.find((one) => one.quantity === quantity && one.axis === axis);
  if (!found) throw new Error(`no line ${quantity}`);
  return found;
}

/** What a line asks, which must be known. */
export function asked(requirement: PrintedRequirement, quantity: string): number {
  const { asked: value } = line(requirement, quantity);
  if (value === null) throw new Error(`${quantity} has no figure`);
  return value;
}
