package quadrille.cli;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.junit.jupiter.api.Assertions.assertEquals;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/**
 * Facts first, words last: what the program says is never taken apart, compared or searched to find
 * out what was meant. A place that looks into text is listed here with the reason why the text is
 * none of ours.
 */
final class NoSentenceIsReadBackTest {

  /** What looks into text, other than a map's {@code replaceAll}. */
  private static final Pattern LOOKS_INTO_TEXT =
      Pattern.compile(
          "\\.(startsWith|endsWith|matches|replaceFirst|split)\\("
              + "|\\.replaceAll\\((?!\\()|\\.(contains|replace|indexOf|lastIndexOf)\\(\""
              + "|Pattern\\.compile\\(");

  /** Whole packages whose work is text that comes from outside. */
  private static final Map<String, String> PACKAGES =
      Map.of(
          "quadrille/document/", "the form of JSON, YAML and CSV, and the parser's own messages",
          "quadrille/diary/calendar/", "iCalendar is text");

  /** Files, each with the reason. */
  private static final Map<String, String> FILES = files();

  private static Map<String, String> files() {
    Map<String, String> files = new TreeMap<>();
    String file = "what a file holds";
    files.put("quadrille/facts/chart/AreaRef.java", "names of areas in files of version 1");
    files.put("quadrille/facts/chart/ChartCsv.java", file);
    files.put("quadrille/facts/practice/Figure.java", "how a file marks a number by its source");
    files.put("quadrille/facts/practice/PassesTogether.java", file);
    files.put("quadrille/facts/chart/ChartReader.java", "file names, and which format a chart has");
    files.put(
        "quadrille/plan/course/FirstPlanWords.java", "plan files of version 1 had words only");
    files.put("quadrille/plan/audit/Say.java", "digits of a number");
    files.put("quadrille/treatment/record/LogLine.java", "the check at a log line's end");
    files.put("quadrille/diary/book/DiaryReader.java", "names of time zones");
    files.put("quadrille/diary/exchange/FhirBundle.java", "characters that another format forbids");
    files.put("quadrille/facts/chart/ChartCsvWriter.java", "quotes that a table asks for");
    files.put("quadrille/facts/chart/ToothLinesWriter.java", "quotes that tooth lines ask for");
    files.put("quadrille/plan/planning/LengthLimits.java", "a map's replaceAll");
    for (String reader :
        List.of("ForeignCharts", "Gathered", "MappingProposal", "Meaning", "TableChart")) {
      files.put("quadrille/facts/exchange/" + reader + ".java", file);
    }
    String asked = "what a person typed";
    files.put("quadrille/facts/chart/ChartDraft.java", asked);
    files.put("quadrille/facts/chart/ToothLines.java", asked);
    files.put("quadrille/facts/chart/WishSentences.java", asked);
    files.put("quadrille/facts/practice/PracticeSettings.java", asked);
    files.put("quadrille/facts/practice/Setting.java", "keys of a practice file");
    files.put("quadrille/cli/serve/OffersRoom.java", asked);
    files.put("quadrille/cli/Format.java", "endings of file names");
    files.put("quadrille/cli/OutputOption.java", "endings of file names");
    files.put("quadrille/cli/PageCommand.java", "which schema a file says that it follows");
    files.put("quadrille/cli/serve/CourseRoom.java", "what a browser sent");
    files.put("quadrille/cli/serve/MovedAreas.java", "what a browser sent");
    files.put("quadrille/cli/serve/Guard.java", "what a browser sent");
    files.put("quadrille/cli/serve/HomeRoom.java", asked);
    files.put("quadrille/cli/serve/MouthRoom.java", asked);
    files.put("quadrille/cli/serve/PracticeFolder.java", "names of files");
    files.put("quadrille/cli/serve/PracticeRoom.java", "keys of a practice file");
    files.put("quadrille/cli/serve/Request.java", "what a browser sent");
    files.put("quadrille/cli/ChartLines.java", "the place of a fault in one line of many");
    files.put("quadrille/cli/Days.java", asked);
    files.put(
        "quadrille/cli/Ending.java", "what a person typed, and the option parser's own message");
    files.put("quadrille/cli/Main.java", asked);
    files.put("quadrille/cli/PatientOptions.java", asked);
    files.put("quadrille/cli/Questions.java", asked);
    files.put("quadrille/cli/RecordCommand.java", asked);
    files.put("quadrille/cli/Streams.java", "names of devices");
    files.put("quadrille/cli/VisitOptions.java", asked);
    files.put("quadrille/cli/Visits.java", asked);
    files.put("quadrille/cli/render/ManyJson.java", "line ends of JSON");
    files.put("quadrille/cli/render/Page.java", "where to break a line");
    files.put(
        "quadrille/cli/render/Words.java", "digits of a number; a full stop in a file's text");
    files.put("quadrille/cli/render/page/Language.java", "keys of a file of translations");
    files.put("quadrille/cli/render/page/PatientPage.java", "the name in a practice file");
    files.put("quadrille/cli/render/picture/Svg.java", "digits of a number");
    return files;
  }

  @Test
  void onlyListedPlacesLookIntoText() throws IOException {
    SortedMap<String, List<String>> found = new TreeMap<>();
    for (Path root : List.of(Path.of("src/main/java"), Path.of("../solver/src/main/java"))) {
      found.putAll(found(root));
    }
    SortedMap<String, List<String>> unlisted = new TreeMap<>(found);
    unlisted.keySet().removeIf(file -> FILES.containsKey(file) || inPackage(file));
    assertEquals(new TreeMap<>(), unlisted, "make a value of it, or list it with its reason");
    TreeSet<String> idle = new TreeSet<>(FILES.keySet());
    idle.removeAll(found.keySet());
    assertEquals(new TreeSet<>(), idle, "these look into no text any more");
  }

  @Test
  void aPlaceThatReadsASentenceIsFound(@TempDir Path root) throws IOException {
    String source =
        """
        class Planted {
          // rule.startsWith("H4") in a comment is none
          boolean length(String rule) {
            return rule.startsWith("H4");
          }
          boolean cut(Course course) {
            return course.assumptions().stream().anyMatch(text -> text.contains("cut short"));
          }
          boolean member(List<String> names, String name) {
            return names.contains(name);
          }
          java.util.regex.Pattern area = java.util.regex.Pattern.compile("(UR|UL) posterior");
        }
        """;
    Files.createDirectories(root.resolve("quadrille/plan"));
    Files.writeString(root.resolve("quadrille/plan/Planted.java"), source);
    assertEquals(
        Map.of(
            "quadrille/plan/Planted.java",
            List.of(
                "return rule.startsWith(\"H4\");",
                "return course.assumptions().stream().anyMatch(text -> text.contains(\"cut"
                    + " short\"));",
                "java.util.regex.Pattern area = java.util.regex.Pattern.compile(\"(UR|UL)"
                    + " posterior\");")),
        found(root));
  }

  private static boolean inPackage(String file) {
    return PACKAGES.keySet().stream().anyMatch(file::startsWith);
  }

  /** The lines that look into text, by file. */
  private static SortedMap<String, List<String>> found(Path root) throws IOException {
    SortedMap<String, List<String>> found = new TreeMap<>();
    try (Stream<Path> files = Files.walk(root)) {
      for (Path file : files.filter(path -> path.toString().endsWith(".java")).sorted().toList()) {
        List<String> lines = new ArrayList<>();
        for (String line : Files.readString(file, UTF_8).split("\n")) {
          String code = line.strip();
          boolean comment = code.startsWith("//") || code.startsWith("*") || code.startsWith("/*");
          if (!comment && LOOKS_INTO_TEXT.matcher(code).find()) {
            lines.add(code);
          }
        }
        if (!lines.isEmpty()) {
          found.put(root.relativize(file).toString().replace('\\', '/'), lines);
        }
      }
    }
    return found;
  }
}
