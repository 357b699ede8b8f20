package snick.cli.terminal;

import picocli.CommandLine.IVersionProvider;

/** The version from the jar's manifest. */
public final class ProgramVersion implements IVersionProvider {
  /** Version of this build, {@code development} outside a jar. */
  public static String text() {
    String version = ProgramVersion.class.getPackage().getImplementationVersion();
    return version == null ? "development" : version;
  }

  @Override
  public String[] getVersion() {
    return new String[] {"snick " + text()};
  }
}
