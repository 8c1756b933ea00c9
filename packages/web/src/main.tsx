import './offline/guard.ts';
import '@fontsource-variable/source-sans-3/wght.css';
import './style/tokens.css';
import './style/base.css';
import './style/frame.css';
import './style/notes.css';
import './style/shelf.css';
import './style/time.css';
import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { App } from './app/App.tsx';
import { start } from './app/start.ts';
import { registerOffline } from './offline/register.ts';

const root = document.querySelector('#root');
if (root) {
  createRoot(root).render(
    <StrictMode>
      <App />
    </StrictMode>,
  );
}
void start();
if (!CSS.supports('field-sizing', 'content'))
  void import('./app/choiceWidths.ts').then(({ fitChoices }) => fitChoices());
registerOffline();
