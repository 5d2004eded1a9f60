/**
 * The side preview: asks the server for the recipe at the cursor, hands the answer to the page as data, and keeps text and page
 * together: the cursor marks its row, a chosen row shows its line.
 */
import * as vscode from "vscode";
import { type BaseLanguageClient, State } from "vscode-languageclient";
import { type Preview, type PreviewParams, type PreviewRange, previewRequest } from "../../../shared/preview.ts";
import type { PageMessage, PreviewMessage } from "../page/messages.ts";
import { pageHtml } from "./page-html.ts";

/** The server answers within a few milliseconds; this only joins the keystrokes of one burst. */
const settleMs = 60;

export class PreviewPanel implements vscode.Disposable {
  private panel: vscode.WebviewPanel | undefined;
  private editor: vscode.TextEditor | undefined;
  private shown: Preview | undefined;
  private timer: ReturnType<typeof setTimeout> | undefined;
  private asked = 0;
  private readonly subscriptions: vscode.Disposable[] = [];

  constructor(
    private readonly extension: vscode.Uri,
    private readonly client: BaseLanguageClient,
  ) {
    this.subscriptions.push(
      vscode.window.onDidChangeActiveTextEditor((editor) => this.follow(editor)),
      vscode.window.onDidChangeTextEditorSelection((e) => this.moved(e)),
      vscode.workspace.onDidChangeTextDocument((e) => this.changed(e.document)),
      vscode.languages.onDidChangeDiagnostics((e) => this.judged(e.uris)),
      vscode.workspace.onDidChangeConfiguration((e) => e.affectsConfiguration("misce") && this.refresh()),
      client.onDidChangeState(({ newState }) => newState === State.Running && this.refresh()),
      vscode.window.registerWebviewPanelSerializer("misce.preview", {
        deserializeWebviewPanel: async (panel, state) => this.restore(panel, state),
      }),
    );
  }

  dispose(): void {
    clearTimeout(this.timer);
    this.panel?.dispose();
    for (const subscription of this.subscriptions) subscription.dispose();
  }

  async show(uri?: vscode.Uri): Promise<void> {
    const editor = await editorOf(uri);
    if (!editor) {
      await vscode.window.showInformationMessage("Open a recipe first: the preview shows the recipe at the cursor.");
      return;
    }
    this.editor = editor;
    if (this.panel) this.panel.reveal(undefined, true);
    else {
      const column = { viewColumn: vscode.ViewColumn.Beside, preserveFocus: true };
      this.adopt(vscode.window.createWebviewPanel("misce.preview", "Preview", column, this.options()));
    }
    this.refresh();
  }

  openAtStart(): void {
    const wanted = vscode.workspace.getConfiguration("misce").get("preview.openAtStart") === true;
    if (wanted && !this.panel && isRecipe(vscode.window.activeTextEditor)) void this.show();
  }

  /** Without a range the keyboard only goes back to where it was in the text. */
  async showText(range?: PreviewRange, takeFocus = true): Promise<void> {
    const preview = this.shown;
    if (!preview) return;
    const visible = vscode.window.visibleTextEditors.find((e) => e.document.uri.toString() === preview.uri);
    const editor = await vscode.window.showTextDocument(vscode.Uri.parse(preview.uri), {
      viewColumn: visible?.viewColumn ?? vscode.ViewColumn.One,
      preserveFocus: !takeFocus,
    });
    if (!range) return;
    const { start, end } = range;
    const wanted = new vscode.Range(start.line, start.character, end.line, end.character);
    editor.selection = new vscode.Selection(wanted.start, wanted.start);
    editor.revealRange(wanted, vscode.TextEditorRevealType.InCenterIfOutsideViewport);
  }

  private options(): vscode.WebviewOptions {
    return { enableScripts: true, localResourceRoots: [vscode.Uri.joinPath(this.extension, "dist")] };
  }

  private async restore(panel: vscode.WebviewPanel, state: unknown): Promise<void> {
    const uri = (state as { uri?: unknown } | null)?.uri;
    const wanted = typeof uri === "string" ? uri : undefined;
    this.editor = vscode.window.visibleTextEditors.find((e) => e.document.uri.toString() === wanted) ?? this.editor;
    panel.webview.options = this.options();
    this.adopt(panel);
  }

  private adopt(panel: vscode.WebviewPanel): void {
    this.panel = panel;
    this.shown = undefined;
    panel.iconPath = vscode.Uri.joinPath(this.extension, "icon", "file-light.svg");
    panel.webview.onDidReceiveMessage((message: PageMessage) => this.heard(message));
    panel.onDidChangeViewState(() => panel.visible && this.refresh());
    panel.onDidDispose(() => {
      if (this.panel === panel) this.panel = undefined;
    });
    panel.webview.html = pageHtml(panel.webview, vscode.Uri.joinPath(this.extension, "dist"));
  }

  private heard(message: PageMessage): void {
    if (message.type === "ready") this.refresh();
    else if (message.type === "go") void this.showText(message.range, message.takeFocus);
  }

  private follow(editor: vscode.TextEditor | undefined): void {
    if (!isRecipe(editor)) return;
    this.editor = editor;
    if (this.panel) this.refresh();
    else this.openAtStart();
  }

  private moved(event: vscode.TextEditorSelectionChangeEvent): void {
    if (!this.panel || event.textEditor !== this.editor) return;
    const within = this.shown?.range && contains(this.shown.range, event.selections[0]?.active);
    if (within && this.shown?.uri === event.textEditor.document.uri.toString()) this.sendCursor();
    else this.refresh();
  }

  private changed(document: vscode.TextDocument): void {
    // A change of another file (stock, drug) reaches this recipe as well.
    if (this.panel && document.languageId === "misce") this.refresh();
  }

  private judged(uris: readonly vscode.Uri[]): void {
    if (this.panel && uris.some((uri) => uri.path.endsWith(".misce"))) this.refresh();
  }

  private refresh(): void {
    if (!this.panel?.visible) return;
    clearTimeout(this.timer);
    this.timer = setTimeout(() => void this.ask(), settleMs);
  }

  private async ask(): Promise<void> {
    this.editor ??= vscode.window.visibleTextEditors.find(isRecipe);
    const editor = this.editor;
    if (!this.panel || !editor || this.client.state !== State.Running) return;
    const number = ++this.asked;
    const { line, character } = editor.selection.active;
    const params: PreviewParams = { uri: editor.document.uri.toString(), position: { line, character } };
    try {
      const preview = await this.client.sendRequest<Preview>(previewRequest, params);
      // An answer that a later question has overtaken is not shown.
      if (number !== this.asked) return;
      this.shown = preview;
      this.panel.title = preview.recipe === "" ? "Preview" : `Preview: ${preview.recipe}`;
      const settings = vscode.workspace.getConfiguration("misce", editor.document.uri);
      const form = settings.get<"sheet" | "rows">("preview.form", "sheet");
      this.post({ type: "show", preview, showWorking: settings.get("preview.showWorking", true), form });
      this.sendCursor();
    } catch (error) {
      if (number !== this.asked) return;
      this.shown = undefined;
      this.post({
        type: "fault",
        text: `The checker did not answer: ${error instanceof Error ? error.message : error}`,
      });
    }
  }

  private sendCursor(): void {
    const editor = this.editor;
    if (!editor || !vscode.workspace.getConfiguration("misce", editor.document.uri).get("preview.followCursor", true))
      return;
    this.post({ type: "cursor", line: editor.selection.active.line });
  }

  private post(message: PreviewMessage): void {
    void this.panel?.webview.postMessage(message);
  }
}

function isRecipe(editor: vscode.TextEditor | undefined): editor is vscode.TextEditor {
  return editor?.document.languageId === "misce";
}

async function editorOf(uri: vscode.Uri | undefined): Promise<vscode.TextEditor | undefined> {
  const active = vscode.window.activeTextEditor;
  if (!(uri instanceof vscode.Uri)) return isRecipe(active) ? active : vscode.window.visibleTextEditors.find(isRecipe);
  if (active?.document.uri.toString() === uri.toString()) return active;
  return vscode.window.showTextDocument(uri);
}

function contains(range: PreviewRange, at: vscode.Position | undefined): boolean {
  return at !== undefined && range.start.line <= at.line && at.line <= range.end.line;
}
