;;; emacs.el --- Run by emacs.test.ts -*- lexical-binding: t -*-

;; Opens a recipe with the set-up of client/emacs, waits for findings, asks, mends, renames over two files. Prints one line of JSON.

(setq create-lockfiles nil make-backup-files nil)
(package-initialize) ; Eglot is a package of its own before Emacs 29
(load (getenv "MISCE_MODE") nil t)
(setq misce-server (list "node" (getenv "MISCE_SERVER") "--stdio"))
(setq-default eglot-workspace-configuration '((:misce . (:asOf "2026-11-25"))))
(defalias 'y-or-n-p #'always) ; nobody is there to confirm

(defun wait-for (what test)
  (let ((until (+ (float-time) 90)))
    (while (and (< (float-time) until) (not (funcall test)))
      (accept-process-output nil 0.05)
      ;; What Flymake does in the pauses of a person who types.
      (when (bound-and-true-p flymake-mode) (flymake-start)))
    (unless (funcall test) (error "Waited in vain for %s" what))))

(defun findings ()
  (mapcar (lambda (d)
            (list :code (plist-get (alist-get 'eglot-lsp-diag (flymake-diagnostic-data d)) :code)
                  :text (buffer-substring-no-properties (flymake-diagnostic-beg d) (flymake-diagnostic-end d))))
          (flymake-diagnostics)))

(defun text () (buffer-substring-no-properties (point-min) (point-max)))

(find-file (getenv "MISCE_FILE"))
(run-hooks 'post-command-hook) ; eglot-ensure waits for the end of a command
(wait-for "findings" #'findings)
(let ((told (list :before (vconcat (findings)) :root (project-root (project-current)))))
  (goto-char (flymake-diagnostic-beg (car (flymake-diagnostics))))
  (let ((fix (aref (vconcat (eglot-code-actions (point) (point) "quickfix" nil)) 0)))
    (setq told (plist-put told :fix (plist-get fix :title)))
    (eglot--apply-workspace-edit (plist-get fix :edit)))
  (eglot--signal-textDocument/didChange)
  (wait-for "the finding to go" (lambda () (null (findings))))
  (setq told (plist-put told :text (text)))
  (goto-char (point-min))
  (re-search-forward (getenv "MISCE_NAME"))
  (eglot-rename "renamed-here")
  (dolist (file (split-string (getenv "MISCE_SHOWN") "\n"))
    (setq told (plist-put told (intern (concat ":" (file-name-base file)))
                          (with-current-buffer (or (get-file-buffer file) (find-file-noselect file)) (text)))))
  (princ (json-serialize told)))
(ignore-errors (eglot-shutdown (eglot-current-server)))
(kill-emacs 0)
