package snick.cut;

import static com.tngtech.archunit.lang.syntax.ArchRuleDefinition.noClasses;

import com.tngtech.archunit.base.DescribedPredicate;
import com.tngtech.archunit.core.domain.JavaMethodCall;
import com.tngtech.archunit.core.importer.ClassFileImporter;
import com.tngtech.archunit.core.importer.ImportOption;
import java.util.Set;
import org.junit.jupiter.api.Test;

/**
 * Java leaves the last digit of some functions of {@link Math} to the machine (its documentation:
 * within 1 ulp); {@link StrictMath} gives the same everywhere, and a result is to be derived again
 * on another machine.
 */
class SameDigitsTest {
  private static final Set<String> OF_THE_MACHINE =
      Set.of("sin", "cos", "tan", "exp", "log", "log10", "pow");

  @Test
  void resultsDependOnNoMachine() {
    noClasses()
        .that()
        .resideInAPackage("snick.cut..")
        .should()
        .callMethodWhere(
            DescribedPredicate.describe(
                "a function of Math that machines round as they like",
                (JavaMethodCall call) ->
                    call.getTargetOwner().isEquivalentTo(Math.class)
                        && OF_THE_MACHINE.contains(call.getName())))
        .check(
            new ClassFileImporter()
                .withImportOption(ImportOption.Predefined.DO_NOT_INCLUDE_TESTS)
                .importPackages("snick.cut"));
  }
}
