package quadrille.cli.serve;

import java.io.IOException;
import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import quadrille.document.Expected;
import quadrille.document.FileStore;

/** Serves a practice's folder for one thing that a browser does there, as a process of its own. */
public final class ServedOnce {

  private static final Pattern MOUTH = Pattern.compile("href=\"(/mouth/[0-9a-f]+)\"");
  private static final Pattern SEEN = Pattern.compile("\"seen\" ?: ?\"([0-9a-f]+)\"");
  private static final Pattern DRAFT = Pattern.compile("data-draft=\"([0-9a-z]+)\"");

  private final PageSession session;

  private ServedOnce(String address) throws IOException, InterruptedException {
    session = new PageSession(address);
  }

  /**
   * Does it in a folder that has been prepared: what prepares it syncs a part of its own, and a
   * call to be killed is told by its number in its thread.
   *
   * @param chart the one chart of the folder
   * @param what {@code begin} a mouth, {@code keep} a draft of the chart, {@code save} it, {@code
   *     accept} a course
   */
  public static void serve(Path folder, String chart, String what)
      throws IOException, InterruptedException {
    PracticeFolder practice = new PracticeFolder(folder, FileStore.USUAL, false);
    Clock clock = Clock.fixed(Instant.parse("2026-03-02T08:00:00Z"), ZoneOffset.UTC);
    try (PageServer server = PageServer.open(practice, 0, clock, ServedOnce::fault)) {
      ServedOnce browser = new ServedOnce(server.address());
      if (what.equals("begin")) {
        browser.send("POST", "/mouths", "teeth=28&numbering=iso3950", "", 303);
        return;
      }
      String mouth = find(MOUTH, browser.send("GET", "/mouths", "", "", 200));
      String draft = find(DRAFT, browser.send("GET", mouth, "", "", 200));
      switch (what) {
        case "keep" -> {
          String of = Expected.of(folder.resolve("charts").resolve(chart)).revision();
          String lines =
              """
              case K-1
              numbering iso3950
              age 54 weight 70 longest 90
              alerts none
              16 light | 3 2 3 | 3 2 3
              """;
          browser.send("PUT", mouth + "/draft", "# of " + of + "\n" + lines, draft, 200);
        }
        case "save" -> browser.send("POST", mouth + "/save", "", draft, 200);
        case "accept" -> {
          String course = mouth + "/course/1";
          String seen = find(SEEN, browser.send("GET", course + "?effort=quick", "", "", 200));
          browser.send("POST", course + "/accept?effort=quick", "", seen, 200);
        }
        default -> throw new IllegalArgumentException(what);
      }
    }
  }

  /** What is served of a practice's folder beneath another, by its address. */
  public static Map<String, String> pages(Path folder) throws IOException, InterruptedException {
    Path served = folder.resolve("served");
    PracticeFolder practice = new PracticeFolder(served, FileStore.USUAL, false);
    practice.prepare();
    Files.copy(
        folder.resolve("mild-one-visit.json"),
        served.resolve("charts").resolve("mild.json"),
        StandardCopyOption.REPLACE_EXISTING);
    Map<String, String> pages = new TreeMap<>();
    Clock clock = Clock.fixed(Instant.parse("2026-03-02T08:00:00Z"), ZoneOffset.UTC);
    try (PageServer server = PageServer.open(practice, 0, clock, ServedOnce::fault)) {
      ServedOnce browser = new ServedOnce(server.address());
      String mouth = find(MOUTH, browser.send("GET", "/mouths", "", "", 200));
      for (String page :
          List.of(
              "/",
              "/mouths",
              "/practice",
              mouth,
              mouth + "/readback",
              mouth + "/course",
              mouth + "/course/1?effort=quick",
              mouth + "/course/1/print?effort=quick")) {
        // Mouths are called otherwise each time.
        pages.put(
            "served " + page.replace(mouth, "mouth"),
            browser.send("GET", page, "", "", 200).replace(mouth, "mouth"));
      }
    }
    return pages;
  }

  private static void fault(String said) {
    throw new IllegalStateException(said);
  }

  private static String find(Pattern pattern, String page) {
    Matcher found = pattern.matcher(page);
    if (!found.find()) {
      throw new IllegalStateException("no " + pattern + " in " + page);
    }
    return found.group(1);
  }

  private String send(String method, String path, String body, String ifMatch, int status)
      throws IOException, InterruptedException {
    HttpResponse<String> answer =
        method.equals("GET") ? session.get(path) : session.send(method, path, body, ifMatch);
    if (answer.statusCode() != status) {
      throw new IllegalStateException(path + ": " + answer.statusCode() + " " + answer.body());
    }
    return answer.body();
  }

  public static void main(String[] args) throws IOException, InterruptedException {
    serve(Path.of(args[0]), args[1], args[2]);
  }
}
