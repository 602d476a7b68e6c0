import { measure } from './field-kinds.ts';

/** Optional keys of `legs` about masses and drives; since version 1, files from before them have none. */
export const legDrive = {
  barrelMass_kg: measure('barrelMass_kg').exactOptional(),
  barrelCentre_mm: measure('barrelCentre_mm').exactOptional(),
  barrelInertia_kg_mm2: measure('barrelInertia_kg_mm2').exactOptional(),
  rodMass_kg: measure('rodMass_kg').exactOptional(),
  rodCentre_mm: measure('rodCentre_mm').exactOptional(),
  rodInertia_kg_mm2: measure('rodInertia_kg_mm2').exactOptional(),
  screwEfficiency: measure('screwEfficiency').exactOptional(),
  friction_N: measure('friction_N').exactOptional(),
  rotorInertia_kg_mm2: measure('rotorInertia_kg_mm2').exactOptional(),
  speed_mm_s: measure('speed_mm_s').exactOptional(),
  acceleration_mm_s2: measure('acceleration_mm_s2').exactOptional(),
  push_N: measure('push_N').exactOptional(),
  pull_N: measure('pull_N').exactOptional(),
  power_W: measure('power_W').exactOptional(),
};
