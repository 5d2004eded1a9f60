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

(add-to-list 'auto-mode-alist '("\\.misce\\'" . misce-mode))
(add-to-list 'eglot-server-programs (cons 'misce-mode (lambda (&rest _) misce-server)))
(add-hook 'misce-mode-hook #'eglot-ensure)

(provide 'misce-mode)
;;; misce-mode.el ends here
