/**
 * Householder reduction of J^T J to tridiagonal form for 6x6 matrices, unrolled: hundreds of thousands of layouts call it some
 * twenty times each, and loops over flat arrays take three times as long. Golub and Van Loan, Matrix Computations, algorithm 8.3.1.
 * A reflection that clears column k below its subdiagonal is v = x - alpha e with alpha = -+|x|, and with p = A v / (|x|^2 - alpha x_1)
 * and w = p - v (p . v) / (2 (|x|^2 - alpha x_1)) the rest of the matrix becomes A - v w^T - w v^T.
 *
 * @param J row-major 6x6
 * @param diagonal six entries, overwritten
 * @param beside the five entries beside the diagonal, overwritten
 */
export function tridiagonalOfSquare(J: Float64Array, diagonal: Float64Array, beside: Float64Array): void {
  let a00 = 0;
  let a10 = 0;
  let a11 = 0;
  let a20 = 0;
  let a21 = 0;
  let a22 = 0;
  let a30 = 0;
  let a31 = 0;
  let a32 = 0;
  let a33 = 0;
  let a40 = 0;
  let a41 = 0;
  let a42 = 0;
  let a43 = 0;
  let a44 = 0;
  let a50 = 0;
  let a51 = 0;
  let a52 = 0;
  let a53 = 0;
  let a54 = 0;
  let a55 = 0;
  // A = J^T J, row by row of J, lower triangle
  for (let row = 0; row < 36; row += 6) {
    const r0 = J[row + 0];
    const r1 = J[row + 1];
    const r2 = J[row + 2];
    const r3 = J[row + 3];
    const r4 = J[row + 4];
    const r5 = J[row + 5];
    a00 += r0 * r0;
    a10 += r1 * r0;
    a11 += r1 * r1;
    a20 += r2 * r0;
    a21 += r2 * r1;
    a22 += r2 * r2;
    a30 += r3 * r0;
    a31 += r3 * r1;
    a32 += r3 * r2;
    a33 += r3 * r3;
    a40 += r4 * r0;
    a41 += r4 * r1;
    a42 += r4 * r2;
    a43 += r4 * r3;
    a44 += r4 * r4;
    a50 += r5 * r0;
    a51 += r5 * r1;
    a52 += r5 * r2;
    a53 += r5 * r3;
    a54 += r5 * r4;
    a55 += r5 * r5;
  }
  // column 1
  diagonal[0] = a00;
  const n0 = a10 * a10 + a20 * a20 + a30 * a30 + a40 * a40 + a50 * a50;
  const alpha0 = a10 > 0 ? -Math.sqrt(n0) : Math.sqrt(n0);
  const half0 = n0 - alpha0 * a10;
  beside[0] = alpha0;
  if (half0 > 0) {
    const beta = 1 / half0;
    const v1 = a10 - alpha0;
    let p1 = beta * (a11 * v1 + a21 * a20 + a31 * a30 + a41 * a40 + a51 * a50);
    let p2 = beta * (a21 * v1 + a22 * a20 + a32 * a30 + a42 * a40 + a52 * a50);
    let p3 = beta * (a31 * v1 + a32 * a20 + a33 * a30 + a43 * a40 + a53 * a50);
    let p4 = beta * (a41 * v1 + a42 * a20 + a43 * a30 + a44 * a40 + a54 * a50);
    let p5 = beta * (a51 * v1 + a52 * a20 + a53 * a30 + a54 * a40 + a55 * a50);
    const share = (beta / 2) * (p1 * v1 + p2 * a20 + p3 * a30 + p4 * a40 + p5 * a50);
    p1 -= share * v1;
    p2 -= share * a20;
    p3 -= share * a30;
    p4 -= share * a40;
    p5 -= share * a50;
    a11 -= 2 * v1 * p1;
    a21 -= a20 * p1 + p2 * v1;
    a22 -= 2 * a20 * p2;
    a31 -= a30 * p1 + p3 * v1;
    a32 -= a30 * p2 + p3 * a20;
    a33 -= 2 * a30 * p3;
    a41 -= a40 * p1 + p4 * v1;
    a42 -= a40 * p2 + p4 * a20;
    a43 -= a40 * p3 + p4 * a30;
    a44 -= 2 * a40 * p4;
    a51 -= a50 * p1 + p5 * v1;
    a52 -= a50 * p2 + p5 * a20;
    a53 -= a50 * p3 + p5 * a30;
    a54 -= a50 * p4 + p5 * a40;
    a55 -= 2 * a50 * p5;
  }
  // column 2
  diagonal[1] = a11;
  const n1 = a21 * a21 + a31 * a31 + a41 * a41 + a51 * a51;
  const alpha1 = a21 > 0 ? -Math.sqrt(n1) : Math.sqrt(n1);
  const half1 = n1 - alpha1 * a21;
  beside[1] = alpha1;
  if (half1 > 0) {
    const beta = 1 / half1;
    const v2 = a21 - alpha1;
    let p2 = beta * (a22 * v2 + a32 * a31 + a42 * a41 + a52 * a51);
    let p3 = beta * (a32 * v2 + a33 * a31 + a43 * a41 + a53 * a51);
    let p4 = beta * (a42 * v2 + a43 * a31 + a44 * a41 + a54 * a51);
    let p5 = beta * (a52 * v2 + a53 * a31 + a54 * a41 + a55 * a51);
    const share = (beta / 2) * (p2 * v2 + p3 * a31 + p4 * a41 + p5 * a51);
    p2 -= share * v2;
    p3 -= share * a31;
    p4 -= share * a41;
    p5 -= share * a51;
    a22 -= 2 * v2 * p2;
    a32 -= a31 * p2 + p3 * v2;
    a33 -= 2 * a31 * p3;
    a42 -= a41 * p2 + p4 * v2;
    a43 -= a41 * p3 + p4 * a31;
    a44 -= 2 * a41 * p4;
    a52 -= a51 * p2 + p5 * v2;
    a53 -= a51 * p3 + p5 * a31;
    a54 -= a51 * p4 + p5 * a41;
    a55 -= 2 * a51 * p5;
  }
  // column 3
  diagonal[2] = a22;
  const n2 = a32 * a32 + a42 * a42 + a52 * a52;
  const alpha2 = a32 > 0 ? -Math.sqrt(n2) : Math.sqrt(n2);
  const half2 = n2 - alpha2 * a32;
  beside[2] = alpha2;
  if (half2 > 0) {
    const beta = 1 / half2;
    const v3 = a32 - alpha2;
    let p3 = beta * (a33 * v3 + a43 * a42 + a53 * a52);
    let p4 = beta * (a43 * v3 + a44 * a42 + a54 * a52);
    let p5 = beta * (a53 * v3 + a54 * a42 + a55 * a52);
    const share = (beta / 2) * (p3 * v3 + p4 * a42 + p5 * a52);
    p3 -= share * v3;
    p4 -= share * a42;
    p5 -= share * a52;
    a33 -= 2 * v3 * p3;
    a43 -= a42 * p3 + p4 * v3;
    a44 -= 2 * a42 * p4;
    a53 -= a52 * p3 + p5 * v3;
    a54 -= a52 * p4 + p5 * a42;
    a55 -= 2 * a52 * p5;
  }
  // column 4
  diagonal[3] = a33;
  const n3 = a43 * a43 + a53 * a53;
  const alpha3 = a43 > 0 ? -Math.sqrt(n3) : Math.sqrt(n3);
  const half3 = n3 - alpha3 * a43;
  beside[3] = alpha3;
  if (half3 > 0) {
    const beta = 1 / half3;
    const v4 = a43 - alpha3;
    let p4 = beta * (a44 * v4 + a54 * a53);
    let p5 = beta * (a54 * v4 + a55 * a53);
    const share = (beta / 2) * (p4 * v4 + p5 * a53);
    p4 -= share * v4;
    p5 -= share * a53;
    a44 -= 2 * v4 * p4;
    a54 -= a53 * p4 + p5 * v4;
    a55 -= 2 * a53 * p5;
  }
  diagonal[4] = a44;
  diagonal[5] = a55;
  beside[4] = a54;
}
