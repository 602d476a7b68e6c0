import { Component, type ReactNode } from 'react';
import { reasonOf } from '../jobs/outcome.ts';
import { Button } from '../ui/Button.tsx';
import styles from './ErrorBoundary.module.css';
import { useDesk } from './files/desk-context.ts';

interface ErrorBoundaryProps {
  /** The part of the screen that is guarded, as the message names it. */
  readonly part: string;
  readonly children: ReactNode;
}

/** Keeps a fault in one part of the screen from taking the rest, and the design, with it. */
export class ErrorBoundary extends Component<ErrorBoundaryProps, { readonly reason: string | null }> {
  override readonly state: { readonly reason: string | null } = { reason: null };

  static getDerivedStateFromError(thrown: unknown) {
    return { reason: reasonOf(thrown) };
  }

  override render() {
    const { reason } = this.state;
    if (reason === null) return this.props.children;
    return <Fallen part={this.props.part} reason={reason} onRetry={() => this.setState({ reason: null })} />;
  }
}

interface FallenProps {
  readonly part: string;
  readonly reason: string;
  readonly onRetry: () => void;
}

function Fallen({ part, reason, onRetry }: FallenProps) {
  const desk = useDesk();
  return (
    <div role="alert" className={styles['fallen']}>
      <p className={styles['title']}>{part} stopped working.</p>
      <p>The design is kept. Save it, then try again or reload the page.</p>
      <p className={styles['reason']}>{reason}</p>
      <div className={styles['actions']}>
        <Button onClick={() => desk.saveAs()}>Save the design</Button>
        <Button onClick={onRetry}>Try again</Button>
        <Button onClick={() => location.reload()}>Reload</Button>
      </div>
    </div>
  );
}
