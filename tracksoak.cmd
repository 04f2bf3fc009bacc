@echo off
rem Starts Tracksoak: finds Java 17 or newer, builds on first use, then hands over to the bench.
rem The same duties as the shell's launcher beside it, but sources that changed are not noticed. All it says goes to stderr. Exit code 3: could not run.
setlocal EnableExtensions DisableDelayedExpansion
set "home=%~dp0"
set "jar=%home%bench\target\tracksoak-bench-1.0.0-SNAPSHOT-all.jar"

set "java="
if defined JAVA_HOME if exist "%JAVA_HOME%\bin\java.exe" call :try "%JAVA_HOME%\bin\java.exe"
if not defined java for /f "delims=" %%J in ('where java.exe 2^>nul') do if not defined java call :try "%%J"
if not defined java for /d %%D in ("%ProgramFiles%\Java\*" "%ProgramFiles%\*jdk*" "%USERPROFILE%\.jdks\*") do if not defined java if exist "%%~D\bin\java.exe" call :try "%%~D\bin\java.exe"
if not defined java (
    >&2 echo tracksoak: no Java 17 or newer was found ^(looked at JAVA_HOME, the search path and the usual folders^). Install Java 17 or newer, or set JAVA_HOME to its folder.
    exit /b 3
)

if not exist "%jar%" call :build
if not exist "%jar%" exit /b 3

set "flags=-XX:TieredStopAtLevel=1 -Xmx320m -Xmn128m"
set "command="
for %%W in (%*) do if not defined command call :word %%W
for %%C in (qualify requalify climb drill demo stand-in) do if /i "%command%"=="%%C" set "flags=-Xms112m -Xmx112m -XX:+AlwaysPreTouch -XX:MaxDirectMemorySize=1g"
"%java%" -XX:+UseSerialGC %flags% -Xlog:disable -Xlog:all=error:stderr -jar "%jar%" %*
exit /b %ERRORLEVEL%

:word
set "said=%~1"
if not defined said exit /b 0
if not "%said:~0,1%"=="-" set "command=%said%"
exit /b 0

:try
set "version="
for /f "tokens=3" %%V in ('""%~1" -version 2^>^&1 ^| findstr /c:" version """') do if not defined version set "version=%%~V"
if not defined version exit /b 0
for /f "delims=.-+" %%M in ("%version%") do set "version=%%M"
set /a major=version 2>nul
if %major% GEQ 17 set "java=%~1"
exit /b 0

:build
where mvn.cmd >nul 2>nul
if errorlevel 1 (
    >&2 echo tracksoak: cannot build: Maven ^(the command mvn^) is not on the search path. Install Maven 3.8 or newer and try again.
    exit /b 3
)
>&2 echo tracksoak: building, because this is the first use; this fetches libraries and takes a minute or two
pushd "%home%"
call mvn.cmd -q -B -Dstyle.color=never -Dmaven.test.skip=true -Dspotless.check.skip=true -Dforbiddenapis.skip=true package 1>&2
popd
if not exist "%jar%" >&2 echo tracksoak: the build failed; what Maven said stands above. The first build needs a connection to fetch libraries.
exit /b 0
