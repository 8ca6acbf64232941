package quadrille.cli;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.io.IOException;
import java.io.InputStream;
import java.io.PrintWriter;
import java.util.Objects;
import java.util.Properties;
import picocli.CommandLine;
import picocli.CommandLine.Command;
import picocli.CommandLine.IVersionProvider;

/** The command {@code quadrille} and the program's entry point. */
@Command(
    name = "quadrille",
    description = "Stages the debridement of a charted mouth over visits.",
    mixinStandardHelpOptions = true,
    versionProvider = Main.Version.class)
public final class Main {

  private Main() {}

  /**
   * Runs the program and ends the process with the exit status.
   *
   * @param args the command's arguments
   */
  public static void main(String[] args) {
    System.exit(
        run(
            new PrintWriter(System.out, true, UTF_8),
            new PrintWriter(System.err, true, UTF_8),
            args));
  }

  /**
   * Runs one command.
   *
   * @param out where results go
   * @param err where messages go
   * @param args the command's arguments
   * @return the exit status: 0 done, 2 wrong usage
   */
  static int run(PrintWriter out, PrintWriter err, String... args) {
    return new CommandLine(new Main()).setOut(out).setErr(err).execute(args);
  }

  /** The version that the build wrote down. */
  static final class Version implements IVersionProvider {

    @Override
    public String[] getVersion() throws IOException {
      Properties build = new Properties();
      try (InputStream in = Main.class.getResourceAsStream("build.properties")) {
        build.load(Objects.requireNonNull(in, "build.properties is missing from the program"));
      }
      return new String[] {"quadrille " + build.getProperty("version")};
    }
  }
}
