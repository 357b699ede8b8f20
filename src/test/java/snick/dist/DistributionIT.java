package snick.dist;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.MethodOrderer;
import org.junit.jupiter.api.Order;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestInstance;
import org.junit.jupiter.api.TestMethodOrder;
import org.junit.jupiter.api.io.TempDir;
import snick.Needs;
import snick.service.ListeningSupervisor;

/**
 * The Debian package, installed, used as a service, upgraded and removed in a scratch system. The
 * service is started as its unit says, by the means of util-linux: this machine's own systemd is
 * left alone.
 */
@TestInstance(TestInstance.Lifecycle.PER_CLASS)
@TestMethodOrder(MethodOrderer.OrderAnnotation.class)
class DistributionIT {
  private static final String UNPROVED =
      "the installed package: files, rights, service, upgrade, removal";

  private static final String LIB = "/usr/lib/snick";
  private static final String DPKG =
      "dpkg --force-depends --force-confold --force-unsafe-io --no-triggers ";

  /** Temporary folder, process files, read-only system: as the unit asks; then its user. */
  private static final String SANDBOX =
      """
      set -e
      mount -t tmpfs -o mode=1777 tmpfs /tmp
      mount -t proc -o subset=pid proc /proc
      install -d -o snick -g snick -m 0700 /run/snick
      mount --bind /run/snick /run/snick
      mount --bind /var/lib/snick /var/lib/snick
      mount -o remount,bind,ro /
      exec setpriv --reuid=snick --regid=snick --groups "$0" --no-new-privs \
        --bounding-set=-all --inh-caps=-all env -i PATH=/usr/local/bin:/usr/bin:/bin "$@"
      """;

  @TempDir static Path folder;
  private ScratchSystem system;

  @BeforeAll
  void install() throws Exception {
    Needs.machine(
        Files.exists(Path.of("/var/lib/dpkg/status")), "not Debian or its like", UNPROVED);
    Needs.machine("root".equals(System.getProperty("user.name")), "not root", UNPROVED);
    Optional<ScratchSystem> made =
        ScratchSystem.make(Files.createDirectory(folder.resolve("scratch")));
    Needs.machine(made.isPresent(), "no overlay can be mounted", UNPROVED);
    system = made.get();
    system.copyIn(DebianPackage.ofThisMachine(), "run/snick.deb");
    Program.Done installed = system.shell(DPKG + "--install /run/snick.deb").well();
    assertThat(installed.err()).doesNotContain("snick:");
  }

  @AfterAll
  void discard() {
    if (system != null) {
      system.close();
    }
  }

  @Test
  @Order(1)
  void onlyRootWritesWhatWasInstalled() throws Exception {
    String writable =
        "find /usr/bin/snick /usr/lib/snick /lib/systemd/system/snick.service /etc/default/snick"
            + " /lib/udev/rules.d/60-snick.rules ! -type l '(' ! -user root -o ! -group root"
            + " -o -perm /022 ')'";
    assertThat(system.shell(writable).well().out()).isEmpty();
    assertThat(system.shell("stat -c '%U %a' /var/lib/snick").well().out())
        .isEqualTo("snick 700\n");
  }

  @Test
  @Order(1)
  void everyManualPageIsSetWithoutAWarning() throws Exception {
    Program.Done set =
        system.shell(
            "cd /usr/share/man/man1 && for page in snick*.1; do"
                + " groff -man -ww -Tutf8 $page || exit 1; done");
    assertThat(set.well().err()).isEmpty();
    assertThat(set.out()).contains("counts-per-gf");
    assertThat(system.shell("ls /usr/share/man/man1/snick*.1 | wc -l").out().strip())
        .isEqualTo(Integer.toString(pages()));
  }

  private static int pages() throws IOException {
    try (Stream<Path> pages = Files.list(Path.of("target/generated-files/man1"))) {
      return (int) pages.count();
    }
  }

  @Test
  @Order(1)
  void completionWorksInBash() throws Exception {
    String complete =
        "set -e; . /usr/share/bash-completion/completions/snick; COMP_WORDS=(snick cuts l);"
            + " COMP_CWORD=2; COMP_LINE='snick cuts l'; COMP_POINT=12; _complete_snick;"
            + " echo \"${COMPREPLY[@]}\"";
    Program.Done completed = system.run("bash", "-c", complete).well();
    assertThat(completed.err()).isEmpty();
    assertThat(completed.out().split("\\s+")).contains("list");
  }

  @Test
  @Order(1)
  void completionLoadsInZsh() throws Exception {
    Needs.tool(system.shell("command -v zsh").exit() == 0, "no zsh", "completion for zsh");
    String load =
        "fpath=(/usr/share/zsh/vendor-completions $fpath); autoload -U compinit; compinit -D -u;"
            + " print $_comps[snick]; autoload +X _snick && functions _snick";
    Program.Done loaded = system.run("zsh", "-fc", load).well();
    assertThat(loaded.err()).isEmpty();
    assertThat(loaded.out()).startsWith("_snick\n").contains("_snick_cuts_list");
  }

  @Test
  @Order(1)
  void theUnitIsAcceptedAndLittleExposed() throws Exception {
    Needs.tool(
        system.shell("command -v systemd-analyze").exit() == 0,
        "no systemd",
        "the unit is sound and hardened");
    String unit = " /lib/systemd/system/snick.service";
    Program.Done verified = system.shell("systemd-analyze verify" + unit);
    assertThat(verified.out() + verified.err()).doesNotContain("snick.service:");
    system.shell("systemd-analyze security --offline=true --no-pager --threshold=16" + unit).well();
  }

  @Test
  @Order(1)
  void theRulesAreUnderstood() throws Exception {
    Needs.tool(
        system.shell("command -v udevadm").exit() == 0, "no udevadm", "the udev rules are read");
    String read = system.shell("udevadm test /devices/virtual/mem/null 2>&1").out();
    assertThat(read.lines().filter(line -> line.contains("60-snick.rules")))
        .containsExactly("Reading rules file: /usr/lib/udev/rules.d/60-snick.rules");
  }

  @Test
  @Order(1)
  void theLauncherFindsAJavaOrSaysWhatIsMissing() throws Exception {
    assertThat(system.run("env", "-i", "PATH=/usr/bin:/bin", "snick", "--version").well().out())
        .startsWith("snick ");
    Program.Done none = system.run("env", "SNICK_JAVA_HOME=/nowhere", "snick", "--version");
    assertThat(none.exit()).isEqualTo(5);
    assertThat(none.err()).contains("needs Java 17", "/nowhere", "apt install");
  }

  @Test
  @Order(1)
  void classesComeFromTheArchiveAndAnotherOneIsLeftAsideSilently() throws Exception {
    String version = "snick --version";
    assertThat(loaded(version)).contains("snick.cli.SnickCommand source: shared objects file");
    system
        .shell("cp -a /usr/lib/snick/snick.jar /run/kept.jar; touch /usr/lib/snick/snick.jar")
        .well();
    Program.Done without = system.shell(version).well();
    assertThat(loaded(version)).doesNotContain("snick.cli.SnickCommand source: shared");
    system.shell("cp -a /run/kept.jar /usr/lib/snick/snick.jar; rm /run/kept.jar").well();
    assertThat(without.err()).isEmpty();
    assertThat(without.out().lines()).hasSize(1);
  }

  private String loaded(String command) throws Exception {
    return system.shell("SNICK_JAVA_OPTIONS=-Xlog:class+load " + command).well().out();
  }

  @Test
  @Order(2)
  void theServiceRecordsPingsAndUnpacksNothing() throws Exception {
    try (Running rig = rig();
        ListeningSupervisor heard = ListeningSupervisor.at("@snick-test-" + folder.hashCode());
        Running service = service(heard.name())) {
      heard.await("READY=1");
      heard.await("WATCHDOG=1");
      for (int cut = 0; cut < 3; cut++) {
        service.await("severed");
      }
      assertThat(heard.await("STATUS=1 of 1 rigs recording; cuts stored: 3")).isNotEmpty();

      assertThat(natives(service))
          .containsExactlyInAnyOrder("jSerialComm", "sqlitejdbc", "jnidispatch");
      assertThat(natives(rig)).containsExactly("jnidispatch");
      assertThat(service.mapped(system.root())).contains(LIB + "/snick.jsa");
      assertThat(system.shell("find /run/snick /var/lib/snick -perm /022 ! -type l").out())
          .isEmpty();
      assertThat(temporaryFiles(service)).isEmpty();

      assertThat(service.terminate()).isEqualTo(143);
      heard.await("STOPPING=1");
    }
    assertThat(cuts()).hasSizeGreaterThanOrEqualTo(3);
  }

  @Test
  @Order(2)
  void commandsUnpackNothingEither() throws Exception {
    system
        .shell(
            "snick demo --speed 100 --data /run/demo && rm -r /tmp/*"
                + " && snick export /run/pool --parquet --contributor ann --data /run/demo"
                + " && snick plot cut 1 --data /run/demo -o /run/cut1.svg && snick ports --no-ask")
        .well();
    assertThat(system.shell("find /tmp -mindepth 1").well().out()).isEmpty();
  }

  /** Libraries that came out of a jar, by name; each from where it was installed. */
  private List<String> natives(Running program) throws IOException {
    return program.mapped(system.root()).stream()
        .filter(file -> file.matches(".*(jSerialComm|sqlitejdbc|jnidispatch|jna).*"))
        .map(file -> file.replaceFirst("^" + LIB + "/native/\\w+/lib(\\w+)\\.so$", "$1"))
        .toList();
  }

  private static List<String> temporaryFiles(Running service) throws IOException {
    try (Stream<Path> files = Files.walk(service.sees("/tmp"))) {
      return files.skip(1).map(Path::toString).toList();
    }
  }

  private Running rig() throws Exception {
    Running rig =
        Running.start(system.inside("snick", "virtual-rig", "--link", "/run/rig", "--speed", "20"));
    rig.await("Virtual rig on /run/rig");
    system.shell("chgrp dialout $(readlink /run/rig); chmod 660 $(readlink /run/rig)").well();
    return rig;
  }

  private Running service(String socket) throws Exception {
    system
        .shell(
            "sed -i 's,^SNICK_PORTS=.*,SNICK_PORTS=\"/run/rig\",; s,^SNICK_OPTIONS=.*,"
                + "SNICK_OPTIONS=\"--http 0 --counts-per-gf 437.25\",' /etc/default/snick")
        .well();
    UnitFile unit = new UnitFile(text("/lib/systemd/system/snick.service"));
    assertThat(unit.only("Type")).isEqualTo("notify");
    assertThat(unit.only("User")).isEqualTo("snick");
    Map<String, String> environment = new TreeMap<>();
    unit.all("Environment").forEach(line -> environment.putAll(UnitFile.variables(line)));
    environment.putAll(
        UnitFile.variables(text(unit.only("EnvironmentFile").replaceFirst("^-", ""))));
    environment.put("NOTIFY_SOCKET", socket);
    environment.put(
        "WATCHDOG_USEC",
        Long.toString(TimeUnit.SECONDS.toMicros(Long.parseLong(unit.only("WatchdogSec")))));
    List<String> command =
        new ArrayList<>(
            List.of("unshare", "--mount", "sh", "-c", SANDBOX, unit.only("SupplementaryGroups")));
    environment.forEach((name, value) -> command.add(name + "=" + value));
    command.addAll(unit.command(environment));
    return Running.start(system.inside(command.toArray(String[]::new)));
  }

  private String text(String file) throws Exception {
    return system.run("cat", file).well().out();
  }

  /** What is stored, as its user reads it. */
  private List<String> cuts() throws Exception {
    String list = "snick cuts list --json --limit 1000 --data /var/lib/snick";
    return system
        .shell("setpriv --reuid=snick --regid=snick --clear-groups " + list)
        .well()
        .out()
        .lines()
        .toList();
  }

  @Test
  @Order(3)
  void anUpgradeKeepsSettingsAndCuts() throws Exception {
    List<String> before = cuts();
    String settings = text("/etc/default/snick");
    system
        .shell(
            "cd /run && dpkg-deb -R snick.deb newer && sed -i 's/^Version: .*/Version: 99.1/'"
                + " newer/DEBIAN/control && echo '# a newer default' >> newer/etc/default/snick"
                + " && dpkg-deb -Znone --root-owner-group -b newer newer.deb")
        .well();
    system.shell(DPKG + "--install /run/newer.deb").well();

    assertThat(system.shell("dpkg-query -W -f '${Version}' snick").out()).isEqualTo("99.1");
    assertThat(cuts()).isEqualTo(before);
    assertThat(text("/etc/default/snick")).isEqualTo(settings);
    assertThat(loaded("snick --version"))
        .contains("snick.cli.SnickCommand source: shared objects file");
  }

  @Test
  @Order(4)
  void removingKeepsSettingsAndCutsAndPurgingKeepsCuts() throws Exception {
    String store = checksum();
    system.shell(DPKG + "--remove snick").well();
    assertThat(system.shell("ls -d /usr/bin/snick " + LIB + " 2>&1").out().lines())
        .allMatch(line -> line.contains("No such file"));
    assertThat(system.shell("test -e /etc/default/snick").exit()).isZero();
    assertThat(checksum()).isEqualTo(store);

    Program.Done purged = system.shell(DPKG + "--purge snick").well();
    assertThat(purged.out()).contains("recorded cuts are kept in /var/lib/snick");
    assertThat(system.shell("test -e /etc/default/snick").exit()).isNotZero();
    assertThat(checksum()).isEqualTo(store);
  }

  private String checksum() throws Exception {
    return system.shell("cat /var/lib/snick/snick.db* | sha256sum").well().out();
  }
}
