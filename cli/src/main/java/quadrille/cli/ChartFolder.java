package quadrille.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.Locale;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import quadrille.document.Fault;
import quadrille.document.InvalidDocumentException;
import quadrille.facts.chart.Chart;
import quadrille.facts.chart.ChartReader;

/**
 * The charts of a folder: its files that end in .json, .yaml, .yml, .csv or .teeth, by name;
 * folders within it are not looked into.
 */
final class ChartFolder implements ChartSource {

  private static final List<String> ENDINGS = List.of(".json", ".yaml", ".yml", ".csv", ".teeth");

  private final Documents documents;
  private final Iterator<String> files;

  /**
   * @throws StopException where the folder cannot be read, or holds no such file
   */
  ChartFolder(Path folder, Documents documents) throws StopException {
    this.documents = documents;
    List<String> names = new ArrayList<>();
    try (Stream<Path> all = Files.list(folder)) {
      all.filter(Files::isRegularFile)
          .map(Path::toString)
          .filter(name -> ENDINGS.stream().anyMatch(name.toLowerCase(Locale.ROOT)::endsWith))
          .sorted()
          .forEach(names::add);
    } catch (IOException e) {
      throw StopException.file(folder + ": cannot be read: " + e.getMessage());
    }
    if (names.isEmpty()) {
      throw StopException.file(
          folder + ": holds no file that ends in " + String.join(", ", ENDINGS) + ".");
    }
    this.files = names.iterator();
  }

  @Override
  public @Nullable ChartItem next() {
    if (!files.hasNext()) {
      return null;
    }
    String file = files.next();
    return new ChartItem(file, () -> chart(file));
  }

  private Chart chart(String file) throws InvalidDocumentException, StopException {
    if (Path.of(file).toFile().length() > ChartLines.MOST_BYTES) {
      throw new InvalidDocumentException(
          List.of(
              new Fault(
                  file,
                  "a file of more than " + ChartLines.MOST_BYTES + " bytes",
                  "one chart of at most so many")));
    }
    return ChartReader.read(file, documents.read(file));
  }
}
