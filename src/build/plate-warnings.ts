import { bracketFoot, type JointMount, type Point } from './joint-mounts.ts';
import { shown } from './numerals.ts';
import { type BuildParts, SIDE_WORDS } from './parts.ts';
import { type DrilledPlate, distance, type PlateHole, rimDistance } from './plate-holes.ts';

/** Warnings of one kind that are spelled out; the rest is counted. */
const SPELLED = 3;

/** Rounding of a distance that is exactly what is asked for [mm]: a millionth of a millimetre. */
const SLACK = 1e-6;

/** What is odd about a plate as it is drilled, a sentence each. */
export function plateWarnings(parts: BuildParts, plate: DrilledPlate): readonly string[] {
  const name = SIDE_WORDS[plate.side];
  return [
    ...tooClose(parts, plate.holes),
    ...atTheRim(parts, plate),
    ...bracketTrouble(parts, plate),
    ...(plate.mark ? [] : ['no room for a marking hole; mark the upper face and +X by hand']),
  ].map((text) => `${name}: ${text}.`);
}

function counted(found: readonly string[]): readonly string[] {
  if (found.length <= SPELLED) return found;
  return [...found.slice(0, SPELLED), `and ${found.length - SPELLED} more of this kind`];
}

function tooClose({ choices }: BuildParts, holes: readonly PlateHole[]): readonly string[] {
  const found: string[] = [];
  const indexed: number[] = [];
  for (let i = 0; i < holes.length; i++)
    for (let j = i + 1; j < holes.length; j++) {
      const web = distance(holes[i].centre, holes[j].centre) - holes[i].radius - holes[j].radius;
      if (web >= choices.edge - SLACK) continue;
      if (holes[i].use === 'index' && holes[j].use === 'index') indexed.push(web);
      else
        found.push(`${shown(web, 2)} mm between ${holes[i].name} and ${holes[j].name}, less than ${choices.edge} mm`);
    }
  const least = Math.min(...indexed);
  const ring = indexed.length > 0 ? [`${shown(least, 2)} mm between indexed holes, less than ${choices.edge} mm`] : [];
  return [...ring, ...counted(found)];
}

function atTheRim(parts: BuildParts, { holes, side }: DrilledPlate): readonly string[] {
  const { outline, opening } = parts.plates[side];
  const { edge } = parts.choices;
  const rim: string[] = [];
  const middle: string[] = [];
  for (const { centre, radius, name } of holes) {
    const left = rimDistance(outline, centre) - radius;
    if (left < edge - SLACK) rim.push(`${shown(left, 2)} mm between ${name} and the rim, less than ${edge} mm`);
    const inner = Math.hypot(...centre) - opening - radius;
    if (opening > 0 && inner < edge - SLACK)
      middle.push(`${shown(inner, 2)} mm between ${name} and the opening, less than ${edge} mm`);
  }
  return [...counted(rim), ...counted(middle)];
}

function bracketTrouble(parts: BuildParts, { mounts, side }: DrilledPlate): readonly string[] {
  const { outline, opening } = parts.plates[side];
  const feet = mounts.map((mount) => bracketFoot(parts, mount));
  const over: string[] = [];
  for (const [n, corners] of feet.entries()) {
    const past = -Math.min(...corners.map((corner) => rimDistance(outline, corner)));
    if (past > SLACK) over.push(`the bracket of leg ${mounts[n].leg} reaches ${shown(past, 1)} mm over the rim`);
    if (opening > 0 && corners.some((corner) => Math.hypot(...corner) < opening))
      over.push(`the bracket of leg ${mounts[n].leg} reaches over the opening`);
  }
  const meeting: string[] = [];
  for (let i = 0; i < feet.length; i++)
    for (let j = i + 1; j < feet.length; j++) {
      const balls = length3(mounts[i], mounts[j]) - parts.choices.ball;
      if (balls < 0) meeting.push(`the balls of legs ${i + 1} and ${j + 1} would meet by ${shown(-balls, 1)} mm`);
      else if (overlap(feet[i], feet[j])) meeting.push(`the brackets of legs ${i + 1} and ${j + 1} would meet`);
    }
  return [...counted(over), ...counted(meeting)];
}

const length3 = ({ centre: a }: JointMount, { centre: b }: JointMount): number =>
  Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);

/** Whether two convex outlines share area: no line along one of their edges parts them (separating axes). */
function overlap(one: readonly Point[], other: readonly Point[]): boolean {
  const parts = (edges: readonly Point[], a: readonly Point[], b: readonly Point[]) =>
    edges.some(([x, y], n) => {
      const [nextX, nextY] = edges[(n + 1) % edges.length];
      const [nx, ny] = [nextY - y, x - nextX];
      const along = (points: readonly Point[]) => points.map(([px, py]) => nx * px + ny * py);
      return Math.max(...along(a)) <= Math.min(...along(b)) || Math.max(...along(b)) <= Math.min(...along(a));
    });
  return !parts(one, one, other) && !parts(other, one, other);
}
