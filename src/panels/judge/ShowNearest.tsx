import { useEffect } from 'react';
import { sessionStore } from '../../state/stores.ts';

/** Has the two nearest bodies marked in the drawing for as long as this is on screen. */
export function ShowNearest() {
  useEffect(() => {
    sessionStore.setState({ clearanceShown: true });
    return () => sessionStore.setState({ clearanceShown: false });
  }, []);
  return null;
}
