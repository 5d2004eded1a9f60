-- Starts the Misce server for recipe files. Works from Neovim 0.7 on; nothing else is needed.
local M = {}

-- The folder to watch: the nearest one above with a git repository or a site file, else the file's own.
local function root_of(path)
  local folder = vim.fn.fnamemodify(path, ":p:h")
  local found = vim.fn.finddir(".git", folder .. ";")
  if found ~= "" then return vim.fn.fnamemodify(found, ":p:h:h") end
  local site = vim.fn.findfile("site.misce", folder .. ";")
  if site ~= "" then return vim.fn.fnamemodify(site, ":p:h") end
  return folder
end

-- options.cmd: how the server is started. options.settings: as in VS Code, e.g. { asOf = "2026-11-25" }.
function M.setup(options)
  local clients = {}
  vim.api.nvim_create_autocmd({ "BufRead", "BufNewFile" }, {
    pattern = "*.misce",
    callback = function(event)
      vim.bo[event.buf].filetype = "misce"
      vim.bo[event.buf].commentstring = "# %s"
      local root = root_of(event.match)
      if not clients[root] then
        clients[root] = vim.lsp.start_client({
          name = "misce",
          cmd = options.cmd,
          root_dir = root,
          workspace_folders = { { uri = vim.uri_from_fname(root), name = root } },
          init_options = options.settings,
          on_exit = function() clients[root] = nil end,
        })
      end
      vim.lsp.buf_attach_client(event.buf, clients[root])
    end,
  })
end

return M
