package snick;

import static com.tngtech.archunit.base.DescribedPredicate.not;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAPackage;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAnyPackage;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;
import static org.assertj.core.api.Assertions.assertThat;

import com.tngtech.archunit.core.domain.JavaClass;
import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import com.tngtech.archunit.library.dependencies.SliceAssignment;
import com.tngtech.archunit.library.dependencies.SliceIdentifier;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

/** The folder list read aloud is the architecture: one row a package, and what it may use. */
class ArchitectureTest {
  private static final List<String> LANGUAGE = List.of("java.lang..", "java.math..", "java.util..");
  private static final int MOST_TYPES = 30;
  private static final String TIME = "java.time..";
  private static final String STATISTICS = "org.apache.commons.statistics..";
  private static final String NUMBERS = "org.apache.commons.numbers..";
  private static final String RANDOM = "org.apache.commons.rng..";
  private static final String LINEAR_ALGEBRA = "org.ejml..";

  private static final List<String> FILES = List.of("java.io..", "java.net..", "java.nio..");

  /** What each stage may use, rooms included; {@code cli} puts all together. */
  private static final Map<String, List<String>> STAGES =
      Map.ofEntries(
          stage("quantity"),
          stage("phrase"),
          stage("port", FILES, "phrase", "com.fazecast.jSerialComm..", "com.sun.jna..", TIME),
          stage("frame", "quantity", "java.nio..", "java.nio.charset.."),
          stage("conformance", "quantity", "frame"),
          stage("sample", "quantity", "frame", TIME),
          stage("cut", "quantity", "sample", TIME, LINEAR_ALGEBRA, "java.nio"),
          stage(
              "force",
              "quantity",
              "phrase",
              "sample",
              "cut",
              "java.nio.charset..",
              TIME,
              STATISTICS,
              NUMBERS,
              LINEAR_ALGEBRA),
          stage("journal", "quantity", "phrase", TIME),
          stage(
              "verdict",
              "quantity",
              "phrase",
              "cut",
              "force",
              "journal",
              STATISTICS,
              NUMBERS,
              RANDOM,
              LINEAR_ALGEBRA,
              TIME),
          stage("virtualrig", FILES, "quantity", "frame", "com.sun.jna.."),
          stage("service", "com.sun.jna..", "java.io..", "java.nio.."),
          stage(
              "store",
              FILES,
              "quantity",
              "phrase",
              "frame",
              "sample",
              "cut",
              "force",
              "journal",
              "verdict",
              "json",
              "java.security..",
              "java.sql..",
              "org.sqlite..",
              TIME),
          stage(
              "report",
              FILES,
              "quantity",
              "phrase",
              "cut",
              "force",
              "journal",
              "verdict",
              "store",
              "json",
              "org.knowm.xchart..",
              "de.erichseifert.vectorgraphics2d..",
              "java.awt..",
              "javax.imageio..",
              "java.text..",
              TIME),
          stage(
              "exchange",
              FILES,
              "quantity",
              "phrase",
              "frame",
              "sample",
              "cut",
              "force",
              "journal",
              "store",
              "de.siegmar.fastcsv..",
              "json",
              "com.fasterxml.jackson.core.io..",
              "org.apache.parquet..",
              "org.apache.hadoop.conf..",
              "io.airlift.compress..",
              "java.security..",
              TIME),
          stage("json", FILES, "quantity", "com.fasterxml.jackson..", TIME),
          stage("live", "quantity", "phrase", "frame", "sample", "cut", TIME),
          stage(
              "view",
              FILES,
              "quantity",
              "phrase",
              "frame",
              "sample",
              "cut",
              "force",
              "journal",
              "verdict",
              "store",
              "report",
              "exchange",
              "live",
              "json",
              "com.sun.net.httpserver..",
              "io.micrometer..",
              "java.security..",
              TIME),
          stage(
              "daemon",
              FILES,
              "quantity",
              "phrase",
              "port",
              "frame",
              "sample",
              "cut",
              "force",
              "store",
              "live",
              "view",
              "service",
              "org.slf4j..",
              "sun.misc..",
              TIME));

  private static Map.Entry<String, List<String>> stage(
      String name, List<String> more, String... mayUse) {
    List<String> all = new ArrayList<>(more);
    all.addAll(List.of(mayUse));
    return stage(name, all.toArray(String[]::new));
  }

  private static Map.Entry<String, List<String>> stage(String name, String... mayUse) {
    List<String> allowed = new ArrayList<>(LANGUAGE);
    allowed.add("snick." + name + "..");
    for (String used : mayUse) {
      allowed.add(used.contains(".") ? used : "snick." + used + "..");
    }
    return Map.entry(name, allowed);
  }

  /** Rooms of a stage, in the order of use: each may use those before it. */
  private static final Map<String, List<String>> ROOMS =
      Map.ofEntries(
          Map.entry("frame", List.of("message", "text", "binary")),
          Map.entry("cut", List.of("estimate", "response", "rest")),
          Map.entry("force", List.of("mass", "reading", "fit", "budget", "check")),
          Map.entry("journal", List.of("name")),
          Map.entry("verdict", List.of("statistic", "comparison", "burr", "study")),
          Map.entry(
              "virtualrig", List.of("settings", "script", "bench", "signal", "device", "line")),
          Map.entry("store", List.of("database", "trace", "record", "table", "care")),
          Map.entry("report", List.of("plot", "sheet")),
          Map.entry("exchange", List.of("json", "table", "derive", "write", "read", "check")),
          Map.entry("view", List.of("http", "bench", "work")),
          Map.entry("daemon", List.of("link")));

  /** Rooms of the command line, each with the rooms it may use; {@code snick.cli} uses all. */
  private static final Map<String, List<String>> COMMANDS =
      Map.ofEntries(
          Map.entry("terminal", List.of()),
          Map.entry("option", List.of("terminal")),
          Map.entry("bench", List.of("terminal", "option")),
          Map.entry("begin", List.of("terminal", "option", "bench")),
          Map.entry("calibration", List.of("terminal", "option", "bench")),
          Map.entry(
              "verification", List.of("terminal", "option", "bench", "calibration", "report")),
          Map.entry("journal", List.of("terminal", "option")),
          Map.entry("cuts", List.of("terminal", "option", "calibration", "journal")),
          Map.entry("verdict", List.of("terminal", "option", "journal")),
          Map.entry("lot", List.of("terminal", "option", "journal", "verdict")),
          Map.entry("report", List.of("terminal", "option", "journal")),
          Map.entry("exchange", List.of("terminal", "option")),
          Map.entry("recorder", List.of("terminal", "option", "journal", "cuts", "verdict")));

  private static final Map<String, List<String>> FENCES =
      Map.of(
          "com.fazecast.jSerialComm..", List.of("snick.port"),
          "java.sql..", List.of("snick.store.."),
          "org.sqlite..", List.of("snick.store.."),
          "com.sun.net.httpserver..", List.of("snick.view.."),
          "io.micrometer..", List.of("snick.view.."),
          "org.knowm.xchart..", List.of("snick.report.."),
          "com.sun.jna..", List.of("snick.port", "snick.virtualrig..", "snick.service"),
          "picocli..", List.of("snick.cli.."),
          "org.slf4j..", List.of("snick.daemon"));

  private static final JavaClasses CLASSES =
      new ClassFileImporter()
          .withImportOption(ImportOption.Predefined.DO_NOT_INCLUDE_TESTS)
          .importPackages("snick");

  private static final SliceAssignment ITS_PACKAGE =
      new SliceAssignment() {
        @Override
        public SliceIdentifier getIdentifierOf(JavaClass type) {
          return SliceIdentifier.of(type.getPackageName());
        }

        @Override
        public String getDescription() {
          return "packages";
        }
      };

  @TestFactory
  Stream<DynamicTest> everyStageUsesOnlyItsRow() {
    return STAGES.entrySet().stream()
        .map(
            row ->
                DynamicTest.dynamicTest(
                    row.getKey(),
                    () ->
                        classes()
                            .that()
                            .resideInAPackage("snick." + row.getKey() + "..")
                            .should()
                            .onlyDependOnClassesThat()
                            .resideInAnyPackage(row.getValue().toArray(String[]::new))
                            .check(CLASSES)));
  }

  @TestFactory
  Stream<DynamicTest> everyRoomUsesOnlyThoseBeforeIt() {
    return ROOMS.entrySet().stream()
        .flatMap(
            stage ->
                stage.getValue().stream()
                    .map(
                        room ->
                            DynamicTest.dynamicTest(
                                stage.getKey() + "." + room,
                                () -> usesOnlyThoseBeforeIt(stage.getKey(), room))));
  }

  private static void usesOnlyThoseBeforeIt(String stage, String room) {
    List<String> all = ROOMS.get(stage);
    String whole = "snick." + stage;
    String[] allowed =
        all.subList(0, all.indexOf(room) + 1).stream()
            .map(before -> whole + "." + before)
            .toArray(String[]::new);
    classes()
        .that()
        .resideInAPackage(whole + "." + room)
        .should()
        .onlyDependOnClassesThat(
            not(resideInAPackage(whole + "..")).or(resideInAnyPackage(allowed)))
        .check(CLASSES);
  }

  @TestFactory
  Stream<DynamicTest> everyRoomOfTheCommandLineUsesOnlyItsRow() {
    return COMMANDS.entrySet().stream()
        .map(
            row ->
                DynamicTest.dynamicTest(
                    row.getKey(),
                    () ->
                        classes()
                            .that()
                            .resideInAPackage(room(row.getKey()))
                            .should()
                            .onlyDependOnClassesThat(
                                not(resideInAPackage("snick.cli.."))
                                    .or(resideInAnyPackage(roomsOf(row.getKey()))))
                            .check(CLASSES)));
  }

  private static String[] roomsOf(String name) {
    return Stream.concat(Stream.of(name), COMMANDS.get(name).stream())
        .map(ArchitectureTest::room)
        .toArray(String[]::new);
  }

  private static String room(String name) {
    return "snick.cli." + name;
  }

  @TestFactory
  Stream<DynamicTest> everyLibraryStaysBehindItsFence() {
    return FENCES.entrySet().stream()
        .map(
            fence ->
                DynamicTest.dynamicTest(
                    fence.getKey(),
                    () ->
                        noClasses()
                            .that(not(resideInAnyPackage(fence.getValue().toArray(String[]::new))))
                            .should()
                            .dependOnClassesThat()
                            .resideInAPackage(fence.getKey())
                            .check(CLASSES)));
  }

  @Test
  void onlyTheEntryEndsTheProcess() {
    noClasses()
        .that()
        .doNotHaveFullyQualifiedName("snick.cli.Main")
        .should()
        .callMethod(System.class, "exit", int.class)
        .check(CLASSES);
  }

  @Test
  void stagesFormNoCycle() {
    slices().matching("snick.(*)..").should().beFreeOfCycles().check(CLASSES);
  }

  @Test
  void packagesFormNoCycle() {
    slices().assignedFrom(ITS_PACKAGE).should().beFreeOfCycles().check(CLASSES);
  }

  @Test
  void everyFolderIsInATable() {
    Set<String> packages =
        CLASSES.stream()
            .map(JavaClass::getPackageName)
            .collect(Collectors.toCollection(TreeSet::new));
    assertThat(packages)
        .allSatisfy(name -> assertThat(listed()).as("packages with a row").contains(name));
  }

  private static Set<String> listed() {
    Set<String> listed = new TreeSet<>(Set.of("snick.cli"));
    STAGES.keySet().forEach(stage -> listed.add("snick." + stage));
    ROOMS.forEach(
        (stage, rooms) -> rooms.forEach(room -> listed.add("snick." + stage + "." + room)));
    COMMANDS.keySet().forEach(room -> listed.add(room(room)));
    return listed;
  }

  @Test
  void noPackageIsTooFullToBeTakenInAtAGlance() {
    Map<String, Long> types =
        CLASSES.stream()
            .filter(JavaClass::isTopLevelClass)
            .collect(Collectors.groupingBy(JavaClass::getPackageName, Collectors.counting()));
    assertThat(types)
        .allSatisfy((name, count) -> assertThat(count).as(name).isLessThanOrEqualTo(MOST_TYPES));
  }

  /** A name that stands in two packages makes a reader look twice. */
  @Test
  void noNameStandsInTwoPackages() {
    Map<String, List<String>> packages =
        CLASSES.stream()
            .filter(type -> type.isTopLevelClass() && !type.getSimpleName().equals("package-info"))
            .collect(
                Collectors.groupingBy(
                    JavaClass::getSimpleName,
                    Collectors.mapping(JavaClass::getPackageName, Collectors.toList())));
    assertThat(packages).allSatisfy((name, where) -> assertThat(where).as(name).hasSize(1));
  }
}
