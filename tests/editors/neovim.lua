-- Run by neovim.test.ts in a headless Neovim: opens a recipe, waits for findings, asks, renames, mends. Prints one JSON line.
local file, server, module = vim.env.MISCE_FILE, vim.env.MISCE_SERVER, vim.env.MISCE_LUA
package.path = module .. "/?.lua;" .. package.path
require("misce").setup({ cmd = { "node", server, "--stdio" }, settings = { asOf = "2026-11-25" } })
local told = {}
local function wait(what, test)
  if not vim.wait(60000, test, 20) then
    print(vim.fn.json_encode({ failed = what }))
    vim.cmd("cquit")
  end
end
local function codes()
  local found = {}
  for _, d in ipairs(vim.diagnostic.get(0)) do
    -- Neovim 0.7 keeps what the server sent under user_data.
    local code = d.code or (d.user_data and d.user_data.lsp and d.user_data.lsp.code)
    table.insert(found, { code = code, line = d.lnum, col = d.col, end_col = d.end_col })
  end
  return found
end
vim.cmd("edit " .. vim.fn.fnameescape(file))
wait("findings", function() return #vim.diagnostic.get(0) > 0 end)
told.before = codes()
local first = told.before[1]
vim.api.nvim_win_set_cursor(0, { first.line + 1, first.col })
local params = vim.lsp.util.make_position_params()
local hover = vim.lsp.buf_request_sync(0, "textDocument/hover", params, 60000)
for _, answer in pairs(hover or {}) do told.hover = answer.result and answer.result.contents.value end
local range = { start = params.position, ["end"] = params.position }
-- Neovim 0.7 sends byte columns in its own diagnostics and no data: the server must not lean on them.
local actions = vim.lsp.buf_request_sync(0, "textDocument/codeAction", {
  textDocument = params.textDocument,
  range = range,
  context = { diagnostics = vim.lsp.diagnostic.get_line_diagnostics() },
}, 60000)
local fix
for id, answer in pairs(actions or {}) do
  for _, action in ipairs(answer.result or {}) do
    if not fix and action.kind == "quickfix" and not action.title:match("deviation") then fix = { id = id, action = action } end
  end
end
told.fix = fix and fix.action.title
if fix then
  local action = fix.action
  if not action.edit then
    local whole = vim.lsp.buf_request_sync(0, "codeAction/resolve", action, 60000)
    for _, answer in pairs(whole or {}) do action = answer.result end
  end
  vim.lsp.util.apply_workspace_edit(action.edit, vim.lsp.get_client_by_id(fix.id).offset_encoding)
end
wait("the fixed finding to go", function()
  for _, d in ipairs(codes()) do
    if d.code == first.code then return false end
  end
  return true
end)
told.after = codes()
told.text = table.concat(vim.api.nvim_buf_get_lines(0, 0, -1, false), "\n") .. "\n"
io.stdout:write("\n" .. vim.fn.json_encode(told) .. "\n")
vim.cmd("qall!")
