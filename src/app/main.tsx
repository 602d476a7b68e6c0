import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import './theme.css';

const root = document.getElementById('root');
if (!root) throw new Error('The page has no element with id "root".');
createRoot(root).render(
  <StrictMode>
    <h1>Legroom</h1>
  </StrictMode>,
);
