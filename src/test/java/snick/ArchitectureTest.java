package snick;

import static com.tngtech.archunit.base.DescribedPredicate.not;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAPackage;
import static com.tngtech.archunit.core.domain.JavaClass.Predicates.resideInAnyPackage;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.classes;
import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;
import static com.tngtech.archunit.library.dependencies.SlicesRuleDefinition.slices;
import static org.assertj.core.api.Assertions.assertThat;

import com.tngtech.archunit.core.domain.JavaClasses;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.api.DynamicTest;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.TestFactory;

/** The folder list read aloud is the architecture: one row a package, and what it may use. */
class ArchitectureTest {
  private static final List<String> LANGUAGE = List.of("java.lang..", "java.util..");
  private static final String TIME = "java.time..";
  private static final String STATISTICS = "org.apache.commons.statistics..";
  private static final String NUMBERS = "org.apache.commons.numbers..";
  private static final String RANDOM = "org.apache.commons.rng..";
  private static final String LINEAR_ALGEBRA = "org.ejml..";

  private static final Map<String, Set<String>> TABLE = table();

  private static Map<String, Set<String>> table() {
    Map<String, Set<String>> table = new TreeMap<>();
    row(table, "quantity");
    row(
        table,
        "port",
        "com.fazecast.jSerialComm..",
        "com.sun.jna..",
        "java.io..",
        "java.nio..",
        "java.net..",
        TIME);
    row(table, "frame", "snick.quantity", "java.nio", "java.nio.charset..");
    row(table, "conformance", "snick.quantity", "snick.frame");
    row(table, "sample", "snick.quantity", "snick.frame", TIME);
    row(table, "cut.response", "java.nio", LINEAR_ALGEBRA);
    row(table, "cut.estimate", LINEAR_ALGEBRA);
    row(
        table,
        "cut",
        "snick.quantity",
        "snick.sample",
        "snick.cut.estimate",
        "snick.cut.response",
        TIME,
        LINEAR_ALGEBRA);
    row(
        table,
        "force",
        "snick.quantity",
        "snick.sample",
        "snick.cut",
        "snick.cut.response",
        "java.nio.charset..",
        TIME,
        STATISTICS,
        NUMBERS,
        LINEAR_ALGEBRA);
    row(table, "journal", "snick.quantity", TIME);
    row(
        table,
        "verdict",
        "snick.quantity",
        "snick.cut",
        "snick.force",
        "snick.journal",
        STATISTICS,
        NUMBERS,
        RANDOM,
        LINEAR_ALGEBRA,
        TIME);
    row(
        table,
        "virtualrig",
        "snick.quantity",
        "snick.frame",
        "com.sun.jna..",
        "java.io..",
        "java.nio..",
        "java.net..");
    row(table, "service", "com.sun.jna..", "java.io..", "java.nio..");
    row(
        table,
        "exchange",
        "snick.quantity",
        "snick.frame",
        "snick.sample",
        "snick.cut",
        "snick.cut.estimate",
        "snick.cut.response",
        "snick.force",
        "snick.journal",
        "snick.store",
        "de.siegmar.fastcsv..",
        "com.fasterxml.jackson..",
        "org.apache.parquet..",
        "org.apache.hadoop.conf..",
        "io.airlift.compress..",
        "java.io..",
        "java.net..",
        "java.nio..",
        "java.security..",
        TIME);
    return table;
  }

  private static void row(Map<String, Set<String>> table, String stage, String... mayUse) {
    Set<String> allowed = new TreeSet<>(LANGUAGE);
    allowed.add("snick." + stage);
    allowed.addAll(List.of(mayUse));
    table.put(stage, allowed);
  }

  /** Rooms of the command line, each with the rooms it may use; {@code snick.cli} uses all. */
  private static final Map<String, List<String>> ROOMS =
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
          "java.sql..", List.of("snick.store"),
          "org.sqlite..", List.of("snick.store"),
          "com.sun.net.httpserver..", List.of("snick.view"),
          "io.micrometer..", List.of("snick.view"),
          "org.knowm.xchart..", List.of("snick.report"),
          "com.sun.jna..", List.of("snick.port", "snick.virtualrig", "snick.service"),
          "picocli..", List.of("snick.cli.."),
          "org.slf4j..", List.of("snick.daemon"));

  /** Packages at the rim: fenced by third-party names, and by what earlier stages may not do. */
  private static final Set<String> RIM = Set.of("store", "report", "view", "daemon", "cli");

  private static final JavaClasses CLASSES =
      new ClassFileImporter()
          .withImportOption(ImportOption.Predefined.DO_NOT_INCLUDE_TESTS)
          .importPackages("snick");

  @TestFactory
  Stream<DynamicTest> everyStageUsesOnlyItsRow() {
    return TABLE.entrySet().stream()
        .map(
            row ->
                DynamicTest.dynamicTest(
                    row.getKey(),
                    () ->
                        classes()
                            .that()
                            .resideInAPackage("snick." + row.getKey())
                            .should()
                            .onlyDependOnClassesThat()
                            .resideInAnyPackage(row.getValue().toArray(String[]::new))
                            .allowEmptyShould(true)
                            .check(CLASSES)));
  }

  @TestFactory
  Stream<DynamicTest> everyRoomUsesOnlyItsRow() {
    return ROOMS.entrySet().stream()
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
    return Stream.concat(Stream.of(name), ROOMS.get(name).stream())
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
  void roomsOfTheCommandLineFormNoCycle() {
    slices().matching("snick.cli.(*)..").should().beFreeOfCycles().check(CLASSES);
  }

  @Test
  void everyFolderIsInTheTable() {
    Set<String> packages =
        CLASSES.stream()
            .map(c -> c.getPackageName())
            .collect(Collectors.toCollection(TreeSet::new));
    List<String> unlisted = new ArrayList<>();
    for (String name : packages) {
      String stage = name.substring(name.indexOf('.') + 1);
      if (!TABLE.containsKey(stage) && !RIM.contains(stage) && !isRoom(stage)) {
        unlisted.add(name);
      }
    }
    assertThat(unlisted).as("packages without a row").isEmpty();
  }

  private static boolean isRoom(String stage) {
    return stage.startsWith("cli.") && ROOMS.containsKey(stage.substring("cli.".length()));
  }
}
