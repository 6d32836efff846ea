/** How the language server is, among what the editor tells of a lesson's language; from there it is started again, or its log read. */
import { languages, LanguageStatusSeverity, type Disposable } from 'vscode';
import { LANGUAGE } from './lesson-documents.ts';
import type { LessonServer } from './lesson-server.ts';

export function serverStatus(server: LessonServer): Disposable[] {
  const item = languages.createLanguageStatusItem('stringcourse.server', { language: LANGUAGE });
  item.name = 'Stringcourse';
  item.text = 'Language server';
  const show = (): void => {
    const { health } = server;
    item.busy = health === 'starting';
    item.detail = health === 'stopped' ? 'stopped: lessons are not checked' : health;
    item.severity = health === 'stopped' ? LanguageStatusSeverity.Error : LanguageStatusSeverity.Information;
    item.command =
      health === 'stopped'
        ? { command: 'stringcourse.restartServer', title: 'Restart' }
        : { command: 'stringcourse.showOutput', title: 'Show Output' };
  };
  show();
  return [item, server.onHealth(show)];
}
