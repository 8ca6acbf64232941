package quadrille.cli;

import java.io.IOException;
import java.io.InputStream;
import java.util.Objects;
import java.util.Properties;
import picocli.CommandLine.IVersionProvider;

/** The version that the build wrote down. */
final class Version implements IVersionProvider {

  @Override
  public String[] getVersion() throws IOException {
    Properties build = new Properties();
    try (InputStream in = Version.class.getResourceAsStream("build.properties")) {
      build.load(Objects.requireNonNull(in, "build.properties is missing from the program"));
    }
    return new String[] {"quadrille " + build.getProperty("version")};
  }
}
