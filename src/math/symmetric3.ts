/**
 * Largest eigenvalue of a symmetric 3x3 matrix, in closed form (O. K. Smith, Comm. ACM 4(4), 1961: from memory): with
 * q a third of the trace and `p^2` a sixth of the squares of A - q I, it is `q + 2 p cos(phi)`, `cos 3 phi = det((A - q I)/p)/2`.
 * Relative error of some rounding errors; the smaller eigenvalues would not be as good.
 */
export function largestEigenvalue3(xx: number, yy: number, zz: number, xy: number, xz: number, yz: number): number {
  const q = (xx + yy + zz) / 3;
  const a = xx - q;
  const b = yy - q;
  const c = zz - q;
  const off = xy * xy + xz * xz + yz * yz;
  const p = Math.sqrt((a * a + b * b + c * c + 2 * off) / 6);
  if (p === 0) return q;
  const determinant = a * (b * c - yz * yz) - xy * (xy * c - yz * xz) + xz * (xy * yz - b * xz);
  const cosine = Math.min(Math.max(determinant / (2 * p * p * p), -1), 1);
  return q + 2 * p * Math.cos(Math.acos(cosine) / 3);
}
