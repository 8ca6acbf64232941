@echo off
rem Runs Quadrille from the jar beside this script. Written for Windows and not tried there.
rem "java -jar quadrille.jar" does the same, later.
setlocal
set "home=%~dp0"
set "java=java"
if defined JAVA_HOME set "java=%JAVA_HOME%\bin\java"
rem A long search repays the better compiler.
set "compiler=-XX:TieredStopAtLevel=1"
for %%w in (%*) do (
  if "%%~w"=="--many" set "compiler=-XX:+TieredCompilation"
  if "%%~w"=="thorough" set "compiler=-XX:+TieredCompilation"
)
rem The archive's complaints would go to standard output, into somebody's JSON.
"%java%" "-XX:SharedArchiveFile=%home%quadrille.jsa" -Xshare:auto -Xlog:disable -Xlog:all=error:stderr ^
  "%compiler%" -XX:+UseSerialGC -jar "%home%quadrille.jar" %*
exit /b %ERRORLEVEL%
