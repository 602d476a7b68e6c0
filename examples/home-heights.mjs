// How far a design reaches and how firm it stands, for several home heights: node home-heights.mjs design.json
import { readFileSync } from 'node:fs';
import { mechanismFromDocument, readDesign } from 'legroom/document';
import { assessArchitecture, assessIndependence } from 'legroom/kinematics';
import { measureReach, reachFromHome } from 'legroom/reach';

const design = readDesign(readFileSync(process.argv[2]));
if (!design.ok) throw new Error(design.fault.map(({ message }) => message).join('\n'));
const { home } = design.value;

console.log('height_mm,reach_cm3,firmness,verdict');
for (const change of [-20, -10, 0, 10, 20]) {
  const [x, y, z] = home.position_mm;
  const raised = {
    ...design.value,
    home: { ...home, position_mm: /** @type {[number, number, number]} */ ([x, y, z + change]) },
  };
  const mechanism = mechanismFromDocument(raised);
  const reach = reachFromHome(measureReach(mechanism, mechanism.home.R_BP, { relativeError: 0.005 }));
  const { firmness, verdict } = assessIndependence(mechanism, mechanism.home, assessArchitecture(mechanism));
  console.log([z + change, (reach / 1000).toFixed(1), firmness.toFixed(4), verdict.word].join(','));
}
