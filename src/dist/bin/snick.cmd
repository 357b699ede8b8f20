@echo off
rem Starts Snick with the Java that it finds, and with what was unpacked beside it.
rem
rem   SNICK_JAVA_HOME, JAVA_HOME   a Java to be used, 17 or newer
rem   SNICK_JAVA_OPTIONS           further options for that Java
setlocal disabledelayedexpansion
set "JAR=%~dp0..\lib\snick\snick.jar"
set "JAVA="
set "REJECTED="

if not defined SNICK_JAVA_HOME goto usual
call :try "%SNICK_JAVA_HOME%"
goto tried

:usual
if defined JAVA_HOME call :try "%JAVA_HOME%"
if not defined JAVA for %%J in (java.exe) do if not "%%~dp$PATH:J"=="" call :try "%%~dp$PATH:J.."
if not defined JAVA for /d %%V in ("%ProgramFiles%\*") do for /d %%H in ("%%V\jdk*" "%%V\jre*") do call :try "%%H"

:tried
if defined JAVA goto start
echo snick: needs Java 17 or newer; found:%REJECTED% 1>&2
echo snick: install one, or name it: set JAVA_HOME=DIR 1>&2
exit /b 5

rem The output is UTF-8; a window that shows another character set shows its signs wrong.
:start
"%JAVA%" -XX:TieredStopAtLevel=1 -XX:+UseSerialGC -XX:-UsePerfData -Dsnick.command=snick %SNICK_JAVA_OPTIONS% -jar "%JAR%" %*
exit /b %ERRORLEVEL%

rem Takes the Java in the folder if it is new enough and none was taken before.
:try
if defined JAVA exit /b 0
set "VERSION="
set "MAJOR=0"
if not exist "%~1\bin\java.exe" goto reject
if not exist "%~1\release" goto ask
for /f "usebackq tokens=1,2 delims==" %%A in ("%~1\release") do if "%%A"=="JAVA_VERSION" set "VERSION=%%~B"
goto judge
:ask
for /f "tokens=3" %%V in ('""%~1\bin\java.exe" -version 2^>^&1"') do if not defined VERSION set "VERSION=%%~V"
:judge
for /f "tokens=1 delims=.-+" %%M in ("%VERSION%") do set "MAJOR=%%M"
if %MAJOR% GEQ 17 set "JAVA=%~1\bin\java.exe"
if defined JAVA exit /b 0
:reject
set "REJECTED=%REJECTED% %~1"
exit /b 0
