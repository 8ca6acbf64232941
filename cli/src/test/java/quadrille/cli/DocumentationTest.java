package quadrille.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** What the documents promise of the repository and of the commands. */
final class DocumentationTest {

  private static final Path ROOT = Path.of("..");
  private static final Pattern LINK = Pattern.compile("\\]\\(([^)#:]+)\\)");

  @TempDir private Path folder;

  private static List<Path> documents() throws IOException {
    List<Path> documents = new ArrayList<>();
    documents.add(ROOT.resolve("README.md"));
    documents.add(ROOT.resolve("DEVELOPERS.md"));
    for (String name : List.of("docs", "demo-data")) {
      try (Stream<Path> files = Files.walk(ROOT.resolve(name))) {
        files.filter(file -> file.toString().endsWith(".md")).sorted().forEach(documents::add);
      }
    }
    return documents;
  }

  @Test
  void everyLinkLeadsSomewhere() throws IOException {
    List<String> broken = new ArrayList<>();
    int links = 0;
    for (Path document : documents()) {
      Matcher link = LINK.matcher(Files.readString(document));
      while (link.find()) {
        links++;
        if (!Files.exists(document.resolveSibling(link.group(1)))) {
          broken.add(document + ": " + link.group(1));
        }
      }
    }
    assertEquals(List.of(), broken);
    assertTrue(links > 20, "links: " + links);
  }

  @Test
  void theIndexNamesEveryDocument() throws IOException {
    String index = Files.readString(ROOT.resolve("docs/README.md"));
    try (Stream<Path> files = Files.walk(ROOT.resolve("docs"))) {
      TreeSet<String> missing = new TreeSet<>();
      files
          .filter(Files::isRegularFile)
          .map(file -> ROOT.resolve("docs").relativize(file).toString())
          .filter(name -> !name.equals("README.md") && !index.contains("(" + name + ")"))
          .forEach(missing::add);
      assertEquals(new TreeSet<>(), missing);
    }
  }

  @Test
  void theReadmesTestCommandIsTheOneThatIsRunForEveryChange() throws IOException {
    assertTrue(Files.readString(ROOT.resolve("README.md")).contains("\n    mvn -B verify\n"));
    assertTrue(Files.readString(ROOT.resolve(".ci/run")).contains("\nmvn -B verify "));
  }

  @Test
  void theReadmeNamesEveryCommandAndStatus() throws IOException {
    String readme = Files.readString(ROOT.resolve("README.md"));
    for (String command : MainTest.commands()) {
      assertTrue(readme.contains("| `" + command), command);
    }
    for (int status :
        new int[] {Status.DONE, Status.REFUSED, Status.USAGE, Status.FILE, Status.FAULT}) {
      assertTrue(readme.contains("\n| " + status + " | "), "status " + status);
    }
  }

  @Test
  void theReadmesChartCanBePlanned() throws IOException {
    String readme = Files.readString(ROOT.resolve("README.md"));
    Path chart = folder.resolve("chart.json");
    Files.writeString(chart, readme.split("```json\n")[1].split("```")[0]);
    assertTrue(Run.of("plan", chart.toString()).done().startsWith("Course for K-1042, "));
  }
}
