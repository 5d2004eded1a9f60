;;; misce-mode.el --- Recipes of sterile preparations -*- lexical-binding: t -*-

;; A mode for .misce files: comments, and the Misce server through Eglot.

(require 'eglot)

(defvar misce-server '("misce" "server" "--stdio")
  "Program and arguments that start the Misce server.")

(define-derived-mode misce-mode prog-mode "Misce"
  "Mode for recipes of sterile preparations."
  (setq-local comment-start "# ")
  (setq-local comment-start-skip "#+[ \t]*")
  (setq-local indent-tabs-mode nil)
  (setq-local tab-width 2))

(defun misce-project (directory)
  "The folder of the library above DIRECTORY, where version control names none.
Each folder would else have a server of its own, blind to unsaved texts of the others."
  (let ((root (and (derived-mode-p 'misce-mode) (locate-dominating-file directory "site.misce"))))
    (and root (cons 'transient (expand-file-name root)))))

(add-hook 'project-find-functions #'misce-project t)

(defun misce-contact (&rest _)
  "The server's command, and that it looks for changed files itself.
Eglot 1.9 does not tell of a file that another program has put in the place of the old."
  (append misce-server '(:initializationOptions (:watches :json-false))))

(add-to-list 'auto-mode-alist '("\\.misce\\'" . misce-mode))
(add-to-list 'eglot-server-programs '(misce-mode . misce-contact))
(add-hook 'misce-mode-hook #'eglot-ensure)

(provide 'misce-mode)
;;; misce-mode.el ends here
