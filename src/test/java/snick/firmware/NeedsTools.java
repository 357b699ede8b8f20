package snick.firmware;

import static org.junit.jupiter.api.extension.ConditionEvaluationResult.disabled;
import static org.junit.jupiter.api.extension.ConditionEvaluationResult.enabled;

import java.lang.annotation.ElementType;
import java.lang.annotation.Retention;
import java.lang.annotation.RetentionPolicy;
import java.lang.annotation.Target;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.extension.ConditionEvaluationResult;
import org.junit.jupiter.api.extension.ExecutionCondition;
import org.junit.jupiter.api.extension.ExtendWith;
import org.junit.jupiter.api.extension.ExtensionContext;
import snick.Needs;

/** Skips a class where tools are missing; one line says so for all such classes. */
@Target(ElementType.TYPE)
@Retention(RetentionPolicy.RUNTIME)
@ExtendWith(NeedsTools.Condition.class)
@interface NeedsTools {
  Tool[] value();

  /** Looks for the tools. */
  final class Condition implements ExecutionCondition {
    private static final String PACKAGES =
        " (Debian: gcc g++ make gcc-avr avr-libc binutils-avr arduino-core-avr simavr libsimavr-dev"
            + " gcc-arm-none-eabi libnewlib-arm-none-eabi qemu-system-arm python3)";
    private static final String UNPROVED =
        "the firmware, the library and the independent device, compiled and run";

    @Override
    public ConditionEvaluationResult evaluateExecutionCondition(ExtensionContext context) {
      Class<?> test = context.getRequiredTestClass();
      NeedsTools needs = test.getAnnotation(NeedsTools.class);
      List<String> missing = missing(needs.value());
      if (missing.isEmpty()) {
        return enabled("all tools are here");
      }
      String all = "no " + String.join(", ", missing(Tool.values())) + PACKAGES;
      Needs.requireNoneInCi(all, UNPROVED);
      Needs.kept(all, UNPROVED);
      return disabled("missing: " + missing);
    }

    private static List<String> missing(Tool... tools) {
      return Stream.of(tools).filter(tool -> !tool.isHere()).map(Tool::program).toList();
    }
  }
}
