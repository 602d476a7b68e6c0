import { How } from '../../ui/How.tsx';

/** How the rows of the comparison come about; the open design shows the same with its own numbers where it is judged. */
export const RowsHow = () => (
  <How name="How the rows are computed">
    <p>
      Reach, usable and tilt rows: volumes by exact columns, as the strip counts them; usable by each design’s own
      floors. Box: the ends of what is connected with home. Firmness rows: the singular values of the Jacobian at home,
      rotations divided by each design’s own characteristic length; magnification 1 / σ₆, condition σ₁ / σ₆.
    </p>
    <p>
      Error: the longest J⁻¹ δ over all signs of the leg errors δ. Force: −J⁻ᵀ w of the load w. Stiffness: of K = Jᵀ
      diag(k) J, the weakest direction. Clearance: the exact least distance of any two bodies. Free travel: how far one
      number goes from home while the others stay. Open a design to see each with its own numbers filled in, under the
      strip and the judgements.
    </p>
  </How>
);
