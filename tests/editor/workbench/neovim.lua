-- Runs inside Neovim: opens a boat, asks the language server by Neovim's own client, and writes the answers as JSON.
-- Variables of the environment say where things are: PROGRAM and NODE, FOLDER, and OUT for the answers.
local folder = os.getenv('FOLDER')
local path = folder .. '/kittiwake/kittiwake.loft'
local result = {}
local exit

local function wait(what, condition)
  if not vim.wait(20000, condition, 50) then
    error('waited in vain for ' .. what)
  end
end

local ok, fault = pcall(function()
  local client_id = vim.lsp.start_client({
    name = 'wireloft',
    cmd = { os.getenv('NODE'), os.getenv('PROGRAM'), 'lsp', '--stdio' },
    root_dir = folder,
    workspace_folders = { { uri = vim.uri_from_fname(folder), name = 'boats' } },
    on_exit = function(code, signal)
      exit = { code = code, signal = signal }
    end,
  })
  vim.cmd('edit ' .. path)
  vim.bo.filetype = 'wireloft'
  local buffer = vim.api.nvim_get_current_buf()
  vim.lsp.buf_attach_client(buffer, client_id)
  wait('the server', function()
    local client = vim.lsp.get_client_by_id(client_id)
    return client ~= nil and client.initialized
  end)
  result.server = vim.lsp.get_client_by_id(client_id).server_capabilities

  -- A request at the first place of a word, counted in characters behind its beginning.
  local function ask(method, word, behind)
    local row, column
    for index, line in ipairs(vim.api.nvim_buf_get_lines(buffer, 0, -1, false)) do
      local start = line:find(word, 1, true)
      if start and not row then
        row, column = index - 1, start - 1 + behind
      end
    end
    local answers = vim.lsp.buf_request_sync(buffer, method, {
      textDocument = vim.lsp.util.make_text_document_params(buffer),
      position = { line = row, character = column },
    }, 20000)
    local answer = answers and answers[client_id] or {}
    if answer.err then
      error(method .. ': ' .. vim.inspect(answer.err))
    end
    return answer.result
  end

  result.hover = ask('textDocument/hover', 'device plotter', 8)
  result.definition = ask('textDocument/definition', 'Tern13', 1)
  result.library = ask('textDocument/definition', 'exposed', 1)
  local symbols = ask('textDocument/documentSymbol', 'vessel', 0)
  result.symbols = #symbols

  local last = vim.api.nvim_buf_line_count(buffer)
  vim.api.nvim_buf_set_lines(buffer, last, last, false, { 'link plotter -- hub.' })
  result.completion = ask('textDocument/completion', 'link plotter -- hub.', 20)
  vim.api.nvim_buf_set_lines(buffer, last, -1, false, { 'link liveHead -- nowhere.head' })
  wait('a finding', function()
    for _, finding in ipairs(vim.diagnostic.get(buffer)) do
      if finding.message:find('nowhere', 1, true) then
        result.finding = finding
        return true
      end
    end
    return false
  end)

  -- Once it is gone, so is the finding, and a right boat has no other.
  vim.api.nvim_buf_set_lines(buffer, last, -1, false, {})
  wait('the end of the findings', function()
    return #vim.diagnostic.get(buffer) == 0
  end)

  vim.lsp.stop_client(client_id)
  wait('the end of the server', function()
    return exit ~= nil
  end)
  result.exit = exit
end)
if not ok then
  result = { fault = tostring(fault) }
end

-- Functions of the client have no place in JSON.
local function plain(value)
  if type(value) == 'table' then
    local copy = {}
    for key, item in pairs(value) do
      copy[key] = plain(item)
    end
    return copy
  end
  return type(value) ~= 'function' and type(value) ~= 'userdata' and value or nil
end
local out = assert(io.open(os.getenv('OUT'), 'w'))
out:write(vim.json.encode(plain(result)))
out:close()
vim.cmd('quitall!')
