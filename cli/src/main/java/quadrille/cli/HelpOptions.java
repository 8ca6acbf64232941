package quadrille.cli;

import picocli.CommandLine.Option;

/** Help and version, which every command answers by itself. */
@SuppressWarnings("UnusedVariable") // picocli acts on them
final class HelpOptions {

  @Option(
      names = {"-h", "--help"},
      order = 98,
      usageHelp = true,
      description = "Show this help.")
  private boolean help;

  @Option(
      names = {"-V", "--version"},
      order = 99,
      versionHelp = true,
      description = "Show the version.")
  private boolean version;
}
