# Windows: records while you are logged on. Write the folder of Snick and your rig (snick ports) in
# place of C:\snick and COM3, then run this file in PowerShell.
#
#   Start-ScheduledTask snick         now, not only at the next logon
#   Stop-ScheduledTask snick          nothing that was announced is lost
#   Unregister-ScheduledTask snick    takes it away again
$action = New-ScheduledTaskAction -Execute cmd.exe `
  -Argument '/c C:\snick\bin\snick.cmd run --wait COM3 2>C:\snick\snick.log'
$trigger = New-ScheduledTaskTrigger -AtLogOn -User $env:USERNAME
$settings = New-ScheduledTaskSettingsSet -MultipleInstances IgnoreNew -ExecutionTimeLimit 0 `
  -AllowStartIfOnBatteries -DontStopIfGoingOnBatteries `
  -RestartCount 999 -RestartInterval (New-TimeSpan -Minutes 1)
Register-ScheduledTask -TaskName snick -Action $action -Trigger $trigger -Settings $settings
