import { Component, type ReactNode } from 'react';

interface DrawingBoundaryProps {
  readonly children: ReactNode;
  /** The drawing could not be made, or broke. */
  readonly onFailure: () => void;
}

/** Holds the 3D drawing: when it fails (a graphics card that promises WebGL and refuses it), the flat one takes its place. */
export class DrawingBoundary extends Component<DrawingBoundaryProps, { readonly failed: boolean }> {
  override state = { failed: false };

  static getDerivedStateFromError() {
    return { failed: true };
  }

  override componentDidCatch(): void {
    this.props.onFailure();
  }

  override render(): ReactNode {
    return this.state.failed ? null : this.props.children;
  }
}
