@echo off
rem Opens this notebook in the browser, to be written in. Begun by double click.
rem It looks for Benchlore. Where there is none it makes a place of its own for it outside this folder, from the file
rem benchlore-....whl that lies beside it. Nothing is ever fetched by name alone.
rem UNTRIED: written after the one for Linux and read by others, never begun on Windows. Tell us how it went.
setlocal
cd /d "%~dp0"
set "own=%LOCALAPPDATA%\benchlore"
set "tool=%own%\env\Scripts\benchlore.exe"
if exist "%tool%" goto open
where benchlore >nul 2>nul
if not errorlevel 1 (
  set "tool=benchlore"
  goto open
)
set "wheel="
for %%f in (benchlore-*.whl) do set "wheel=%%f"
if not defined wheel (
  echo Benchlore is not on this computer. Put its file, benchlore-....whl, into this folder and begin again.
  goto stay
)
set "python="
for %%p in (py python3 python) do if not defined python (
  %%p -c "import sys; sys.exit(sys.version_info < (3, 11))" >nul 2>nul && set "python=%%p"
)
if not defined python (
  echo Python 3.11 or later is not on this computer. Get it from python.org and begin again.
  goto stay
)
echo Benchlore is made ready. This is done once and takes a minute or two.
"%python%" -m venv "%own%\env"
if errorlevel 1 (
  echo No place could be made for Benchlore in %own%. Is the disk full?
  goto stay
)
"%own%\env\Scripts\python.exe" -m pip install --quiet --disable-pip-version-check --find-links . "%wheel%"
if errorlevel 1 (
  echo Benchlore could not be made ready: what it needs was not to be had. Is there a network? Begin again when there is.
  goto stay
)
:open
"%tool%" bench --open
if not errorlevel 1 exit /b 0
echo The bench did not open. What it said stands above.
:stay
pause
exit /b 1
