// Leg lengths while the tool goes once round a circle, as a table: node leg-lengths.mjs design.json > lengths.csv
import { readFileSync } from 'node:fs';
import { mechanismFromDocument, readDesign } from 'legroom/document';
import { legStates } from 'legroom/kinematics';

const RADIUS_MM = 10;
const STEPS = 36;

const design = readDesign(readFileSync(process.argv[2]));
if (!design.ok) throw new Error(design.fault.map(({ message }) => message).join('\n'));
const mechanism = mechanismFromDocument(design.value);
const { p_BoTo_B, R_BP } = mechanism.home;

console.log('turn_deg,leg1_mm,leg2_mm,leg3_mm,leg4_mm,leg5_mm,leg6_mm,broken');
for (let step = 0; step <= STEPS; step++) {
  const turn = (2 * Math.PI * step) / STEPS;
  const [x, y, z] = p_BoTo_B;
  const at = {
    p_BoTo_B: /** @type {const} */ ([x + RADIUS_MM * Math.cos(turn), y + RADIUS_MM * Math.sin(turn), z]),
    R_BP,
  };
  const legs = legStates(mechanism, at);
  const broken = legs.filter(({ violations }) => violations.length > 0).map(({ leg }) => leg);
  console.log([(360 * step) / STEPS, ...legs.map(({ length }) => length.toFixed(4)), broken.join(' ')].join(','));
}
