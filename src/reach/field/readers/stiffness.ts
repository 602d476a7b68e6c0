import { LEG_COUNT } from '../../../kinematics/layout.ts';
import { largestEigenvalue3 } from '../../../math/symmetric3.ts';
import type { MakeReader } from './reader.ts';

/** 1 / largest eigenvalue of the translation block of J^-1 diag(1/k) J^-T. */
export const stiffness: MakeReader = (state, { stiffness: springs }) => {
  if (!springs) return null;
  const { inverse: M } = state;
  return () => {
    if (state.determinant === 0) return 0;
    let xx = 0;
    let yy = 0;
    let zz = 0;
    let xy = 0;
    let xz = 0;
    let yz = 0;
    for (let leg = 0; leg < LEG_COUNT; leg++) {
      const give = 1 / springs[leg];
      const x = M[leg];
      const y = M[6 + leg];
      const z = M[12 + leg];
      xx += give * x * x;
      yy += give * y * y;
      zz += give * z * z;
      xy += give * x * y;
      xz += give * x * z;
      yz += give * y * z;
    }
    return 1 / largestEigenvalue3(xx, yy, zz, xy, xz, yz);
  };
};
