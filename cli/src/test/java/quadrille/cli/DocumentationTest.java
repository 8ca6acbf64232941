package quadrille.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
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
  private static final Pattern CLASS = Pattern.compile("`([A-Z][A-Za-z0-9]*[a-z])\\b[^`]*`");

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

  /** Only names of our own are looked for; those of the JDK and of libraries are listed. */
  @Test
  void everyClassThatADocumentNamesIsThere() throws IOException {
    Set<String> there =
        new TreeSet<>(
            List.of("EnumMap", "HashMap", "HashSet", "LinkedHashMap", "TreeMap", "PreviewFeature"));
    for (String module : List.of("solver/src", "cli/src")) {
      try (Stream<Path> files = Files.walk(ROOT.resolve(module))) {
        files.map(file -> file.getFileName().toString().replace(".java", "")).forEach(there::add);
      }
    }
    TreeSet<String> missing = new TreeSet<>();
    for (Path document : documents()) {
      Matcher name = CLASS.matcher(Files.readString(document));
      while (name.find()) {
        if (!there.contains(name.group(1))) {
          missing.add(document + ": " + name.group(1));
        }
      }
    }
    assertEquals(new TreeSet<>(), missing);
  }

  /** A row names a method of a test class, or the words of a row of a table of cases. */
  @Test
  void everyClinicalExpectationHasItsTest() throws IOException {
    Map<String, String> sources = new TreeMap<>();
    for (String module : List.of("solver/src/test/java", "cli/src/test/java")) {
      try (Stream<Path> files = Files.walk(ROOT.resolve(module))) {
        for (Path file : files.filter(Files::isRegularFile).toList()) {
          sources.put(
              file.getFileName().toString().replace(".java", ""),
              Files.readString(file).replaceAll("\"\\s*\\+\\s*\"", ""));
        }
      }
    }
    String cases = sources.get("ClinicalCasesTest") + sources.get("AnaesthesiaCasesTest");
    List<String> missing = new ArrayList<>();
    List<String> rows =
        Files.readAllLines(ROOT.resolve("docs/clinical-cases.md")).stream()
            .filter(line -> line.startsWith("| ") && !line.endsWith(" held by |"))
            .toList();
    for (String row : rows) {
      String held = row.split(" \\| ")[1].replace(" |", "");
      String[] method = held.replace("`", "").split("#");
      boolean there =
          held.startsWith("\"")
              ? cases.contains("Case(\n            " + held)
                  || cases.contains("Case(\n              " + held)
              : method.length == 2
                  && sources.getOrDefault(method[0], "").contains("void " + method[1] + "(");
      if (!there) {
        missing.add(held);
      }
    }
    assertEquals(List.of(), missing);
    assertTrue(rows.size() > 60, "rows: " + rows.size());
  }

  @Test
  void theIndexNamesEveryDocument() throws IOException {
    String index = Files.readString(ROOT.resolve("docs/README.md"));
    try (Stream<Path> files = Files.walk(ROOT.resolve("docs"))) {
      TreeSet<String> missing = new TreeSet<>();
      files
          .filter(Files::isRegularFile)
          .map(file -> ROOT.resolve("docs").relativize(file).toString())
          // Pictures stand in the documents themselves.
          .filter(name -> !name.endsWith(".png"))
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
