package snick.dist;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.LockSupport;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.MethodOrderer;
import org.junit.jupiter.api.Order;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.TestMethodOrder;
import org.junit.jupiter.api.io.TempDir;
import snick.Needs;

/**
 * The Debian package's service under a systemd that really runs, from a rig that comes and goes.
 */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
@TestMethodOrder(MethodOrderer.OrderAnnotation.class)
class LiveServiceIT {
  private static final String UNPROVED = "the service under a real systemd";

  private static final String DPKG =
      "dpkg --force-depends --force-confold --force-unsafe-io --no-triggers ";
  private static final long PATIENCE_SECONDS = 60;

  /** A pseudo-terminal in place of a device on USB, and less patience of the watchdog. */
  private static final String DROP_IN =
      "mkdir -p /etc/systemd/system/snick.service.d && printf"
          + " '[Service]\\nDeviceAllow=char-pts rw\\nWatchdogSec=5\\nRestartSec=1\\n'"
          + " > /etc/systemd/system/snick.service.d/trial.conf && systemctl daemon-reload";

  private static final String PLUG_IN =
      "systemd-run --quiet --unit=rig snick virtual-rig --link /run/rig --speed 5"
          + " && until test -e /run/rig; do sleep 0.1; done"
          + " && chgrp dialout $(readlink /run/rig) && chmod 660 $(readlink /run/rig)";

  private static final String UNPLUG =
      "systemctl stop rig; systemctl reset-failed rig; rm -f /run/rig";

  @TempDir static Path folder;
  private BootedSystem system;

  @BeforeAll
  void boot() throws Exception {
    Needs.machine(
        Files.exists(Path.of("/var/lib/dpkg/status")), "not Debian or its like", UNPROVED);
    Needs.tool(Files.exists(Path.of("/lib/systemd/systemd")), "no systemd", UNPROVED);
    Needs.machine("root".equals(System.getProperty("user.name")), "not root", UNPROVED);
    Optional<BootedSystem> booted =
        BootedSystem.boot(Files.createDirectory(folder.resolve("booted")));
    Needs.machine(booted.isPresent(), "no second systemd can be booted", UNPROVED);
    system = booted.get();
    system.copyIn(DebianPackage.ofThisMachine(), "run/snick.deb");
    system.shell(DPKG + "--install /run/snick.deb").well();
    system
        .shell(
            "sed -i 's,^SNICK_PORTS=.*,SNICK_PORTS=\"/run/rig\",' /etc/default/snick && " + DROP_IN)
        .well();
  }

  @AfterAll
  void shutDown() {
    if (system != null) {
      system.close();
    }
  }

  /** Something that becomes true. */
  @FunctionalInterface
  private interface Condition {
    boolean holds() throws Exception;
  }

  private void await(String what, Condition condition) throws Exception {
    long end = System.nanoTime() + TimeUnit.SECONDS.toNanos(PATIENCE_SECONDS);
    while (!condition.holds()) {
      if (System.nanoTime() > end) {
        throw new AssertionError("never " + what + ": " + journal());
      }
      LockSupport.parkNanos(TimeUnit.MILLISECONDS.toNanos(200));
    }
  }

  private void awaitStatus(String part) throws Exception {
    await(part, () -> system.service("StatusText").contains(part));
  }

  private String journal() throws Exception {
    return system.shell("journalctl --no-pager -o cat -u snick | tail -40").out();
  }

  @Test
  @Order(1)
  void itIsReadyAndWatchedBeforeItsRigIsThere() throws Exception {
    system.run("systemctl", "enable", "--now", "snick").well();

    assertThat(system.service("ActiveState")).isEqualTo("active");
    awaitStatus("0 of 1 rigs recording, waiting for 1 not there yet");
    String fed = system.service("WatchdogTimestampMonotonic");
    await("fed", () -> !system.service("WatchdogTimestampMonotonic").equals(fed));
    assertThat(system.service("NRestarts")).isEqualTo("0");
    assertThat(journal()).containsOnlyOnce("waiting for the rig: /run/rig is not there");
  }

  @Test
  @Order(2)
  void itRecordsAsSoonAsTheRigIsThereAndWhenItIsBack() throws Exception {
    system.shell(PLUG_IN).well();
    awaitStatus("1 of 1 rigs recording");
    await("a cut", () -> journal().contains("severed"));
    system.shell(UNPLUG);
    awaitStatus("0 of 1 rigs recording");
    system.shell(PLUG_IN).well();
    awaitStatus("1 of 1 rigs recording");
    assertThat(journal()).contains("went away; waiting").contains("is back");
    assertThat(system.service("NRestarts")).isEqualTo("0");
  }

  @Test
  @Order(3)
  void itRunsWithAsLittleAsTheUnitSays() throws Exception {
    String status = system.shell("cat /proc/" + system.service("MainPID") + "/status").out();
    assertThat(status)
        .containsPattern("NoNewPrivs:\\s+1\n")
        .containsPattern("Seccomp:\\s+2\n")
        .containsPattern("CapBnd:\\s+0+\n");
    assertThat(system.shell("stat -c '%U %a' /run/snick /var/lib/snick").out())
        .isEqualTo("snick 700\nsnick 700\n");
  }

  @Test
  @Order(4)
  void itGoesOnAfterARestartAndTakesNoLeave() throws Exception {
    String before = system.service("MainPID");
    system.run("systemctl", "restart", "snick").well();

    assertThat(system.service("MainPID")).isNotEqualTo(before);
    awaitStatus("1 of 1 rigs recording");
    String stopped = journal();
    assertThat(stopped.substring(stopped.lastIndexOf("is back")))
        .contains("stopped; everything announced is stored")
        .doesNotContain("went away");
  }

  @Test
  @Order(5)
  void killedItIsStartedAgainAndNothingAnnouncedIsLost() throws Exception {
    await("a cut", () -> system.service("StatusText").matches(".*stored: [1-9].*"));
    system.run("systemctl", "kill", "--signal=KILL", "snick").well();
    await("started again", () -> system.service("NRestarts").equals("1"));
    awaitStatus("1 of 1 rigs recording");
    system.run("systemctl", "stop", "snick").well();

    assertThat(system.service("Result")).isEqualTo("success");
    String count = "journalctl --no-pager -o cat -u snick | grep -c '^#'";
    long announced = Long.parseLong(system.shell(count).well().out().strip());
    assertThat(announced).isPositive();
    assertThat(stored()).isGreaterThanOrEqualTo(announced);
    String check = "setpriv --reuid=snick --regid=snick --clear-groups snick store check --data ";
    assertThat(system.shell(check + "/var/lib/snick").out()).contains(" traces checked, 0 damaged");
  }

  private long stored() throws Exception {
    return asService("snick cuts list --json --limit 100000 --data /var/lib/snick").lines().count();
  }

  private String asService(String command) throws Exception {
    return system
        .shell("setpriv --reuid=snick --regid=snick --clear-groups " + command)
        .well()
        .out();
  }

  @Test
  @Order(6)
  void oneThatHangsIsStartedAgain() throws Exception {
    system.run("systemctl", "start", "snick").well();
    awaitStatus("1 of 1 rigs recording");
    String hung = system.service("MainPID");
    system.run("kill", "-STOP", hung).well();

    await("another process", () -> !system.service("MainPID").matches("0|" + hung));
    awaitStatus("1 of 1 rigs recording");
    assertThat(system.shell("journalctl --no-pager -o cat _PID=1").out())
        .contains("snick.service: Watchdog timeout");
  }

  /** The newer one makes no class-data archive, which takes long: DistributionIT sees to that. */
  @Test
  @Order(7)
  void anUpgradeGoesOnAndRemovingStops() throws Exception {
    String before = system.service("MainPID");
    system
        .shell(
            "cd /run && dpkg-deb -R snick.deb newer && sed -i 's/^Version: .*/Version: 99.1/'"
                + " newer/DEBIAN/control && echo '#!/bin/sh' > newer/usr/lib/snick/class-archive"
                + " && dpkg-deb -Znone --root-owner-group -b newer newer.deb")
        .well();
    system.shell(DPKG + "--install /run/newer.deb").well();
    assertThat(system.service("MainPID")).isNotIn(before, "0");
    awaitStatus("1 of 1 rigs recording");

    system.shell(DPKG + "--remove snick").well();
    assertThat(system.service("ActiveState")).isEqualTo("inactive");
    system.shell("test -e /var/lib/snick/snick.db").well();
    assertThat(system.shell("ls /etc/systemd/system/multi-user.target.wants/snick.service").exit())
        .isNotZero();
  }
}
