package quadrille.mouths;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Stream;
import quadrille.document.InvalidDocumentException;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.ChartReader;

/** The mouths of {@code demo-data}. */
public final class DemoMouths {

  private static final Path FOLDER = Path.of("..", "demo-data");

  private DemoMouths() {}

  /**
   * @param name of the file, such as {@code typical.json}
   */
  public static Path file(String name) {
    return FOLDER.resolve(name);
  }

  /**
   * @param name of the file, such as {@code typical.json}
   */
  public static Chart chart(String name) throws IOException, InvalidDocumentException {
    return ChartReader.read(file(name));
  }

  /** The files of all of them, by name. */
  public static List<Path> files() throws IOException {
    try (Stream<Path> files = Files.list(FOLDER)) {
      return files
          .filter(file -> file.toString().matches(".*\\.(json|csv)"))
          .filter(file -> !file.toString().endsWith(".practice.json"))
          .filter(file -> !file.endsWith("diary.json"))
          .sorted()
          .toList();
    }
  }
}
