package quadrille.cli.serve;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Deque;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.MatchResult;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import quadrille.cli.Mutants;
import quadrille.document.FileStore;

/**
 * Requests of the page, changed at random: the page's own links and forms are followed first, then
 * sent with other paths, methods, words and revisions. Each is answered or refused (status 200 to
 * 499) within five seconds, none is a fault of the program, and no part of a file is left.
 */
final class PageFuzzTest {

  private static final int REQUESTS = Boolean.getBoolean("quadrille.thorough") ? 3_000 : 200;
  private static final Duration MOST = Duration.ofSeconds(5);

  private static final Pattern LINK = Pattern.compile("href=\"(/[^\"#]*)");
  private static final Pattern FORM =
      Pattern.compile("(?s)<form[^>]*action=\"(/[^\"]*)\"[^>]*>(.*?)</form>");
  private static final Pattern FIELD =
      Pattern.compile("<(?:input|select|textarea|button)[^>]*name=\"([^\"]*)\"[^>]*");
  private static final Pattern VALUE = Pattern.compile("value=\"([^\"]*)\"");

  /** What a script of the page sends beside the forms. */
  private static final String LINES =
      """
      # of nothing
      case K-1
      numbering iso3950
      age 54 weight 70 longest 90
      alerts none
      16 heavy | 6b 4 7b | 5 4 6
      """;

  private record Asked(String method, String path, String body) {}

  @TempDir private Path folder;

  private final List<String> faults = Collections.synchronizedList(new ArrayList<>());

  @Test
  void everyRequestIsAnsweredOrRefused() throws Exception {
    PracticeFolder practice = new PracticeFolder(folder, FileStore.USUAL, false);
    practice.prepare();
    for (String chart : List.of("heart-disease.json", "mild-one-visit.json", "moderate.csv")) {
      Files.copy(Path.of("../demo-data", chart), folder.resolve("charts").resolve(chart));
    }
    Clock clock = Clock.fixed(Instant.parse("2026-03-02T08:00:00Z"), ZoneOffset.UTC);
    DemoPractice.begin(folder, FileStore.USUAL, clock);
    try (PageServer server = PageServer.open(practice, 0, clock, faults::add)) {
      PageSession session = new PageSession(server.address());
      List<Asked> usual = usual(session);
      assertTrue(usual.size() > 20, usual.toString());
      Map<Integer, Integer> statuses = new TreeMap<>();
      for (int number = 0; number < REQUESTS; number++) {
        Mutants mutants = new Mutants(new Random(40261130L + number));
        Asked asked = changed(mutants.any(usual), mutants.any(usual), mutants);
        statuses.merge(answered(session, number, asked, mutants), 1, Integer::sum);
      }
      System.err.println(REQUESTS + " requests, by status: " + statuses);
      assertTrue(statuses.keySet().stream().anyMatch(status -> status < 400), "some are answered");
    }
    try (Stream<Path> files = Files.walk(folder)) {
      assertEquals(List.of(), files.filter(file -> file.toString().endsWith(".part")).toList());
    }
  }

  private int answered(PageSession session, int number, Asked asked, Mutants mutants)
      throws Exception {
    String ifMatch = mutants.oneIn(3) ? "nothing" : mutants.oneIn(2) ? "0123456789abcdef" : "";
    HttpResponse<String> answer = null;
    Duration took = MOST;
    // A machine that is busy with something else may be slow once.
    for (int again = 0; again < 3 && took.compareTo(MOST) >= 0; again++) {
      long before = System.nanoTime();
      answer = sent(session, asked, ifMatch);
      took = Duration.ofNanos(System.nanoTime() - before);
    }
    String what = number + ": " + asked + " was answered " + answer + " in " + took;

    assertTrue(took.compareTo(MOST) < 0, what);
    assertTrue(answer != null && answer.statusCode() < 500, () -> what + "\n" + faults);
    assertEquals(List.of(), faults, what);
    return answer.statusCode();
  }

  private static HttpResponse<String> sent(PageSession session, Asked asked, String ifMatch)
      throws Exception {
    return asked.method().equals("GET")
        ? session.get(asked.path())
        : session.send(asked.method(), asked.path(), asked.body(), ifMatch);
  }

  // ---- what a browser would ask for

  private static List<Asked> usual(PageSession session) throws Exception {
    List<Asked> usual = new ArrayList<>();
    Set<String> met = new TreeSet<>(Set.of("/"));
    Deque<String> open = new ArrayDeque<>(met);
    while (!open.isEmpty() && usual.size() < 150) {
      Asked page = new Asked("GET", open.remove(), "");
      usual.add(page);
      String html = sent(session, page, "").body();
      for (MatchResult link : LINK.matcher(html).results().toList()) {
        String path = link.group(1).replace("&amp;", "&");
        if (!searches(path) && met.size() < 60 && met.add(path)) {
          open.add(path);
        }
      }
      for (MatchResult form : FORM.matcher(html).results().toList()) {
        usual.add(new Asked("POST", form.group(1), fields(form.group(2))));
      }
      if (page.path().matches("/mouth/[0-9a-f]+")) {
        usual.add(new Asked("PUT", page.path() + "/draft", LINES));
        usual.add(new Asked("POST", page.path() + "/save", ""));
        usual.add(new Asked("GET", page.path() + "/course/1?effort=quick", ""));
      }
    }
    usual.add(new Asked("POST", "/read", LINES));
    usual.add(new Asked("POST", "/read", Files.readString(Path.of("../demo-data/moderate.csv"))));
    return usual;
  }

  /** Searching for a course may take a minute, by design. */
  private static boolean searches(String path) {
    return path.contains("/course");
  }

  private static String fields(String form) {
    List<String> pairs = new ArrayList<>();
    for (MatchResult field : FIELD.matcher(form).results().toList()) {
      Matcher value = VALUE.matcher(field.group());
      pairs.add(field.group(1) + "=" + Request.encoded(value.find() ? value.group(1) : "1"));
    }
    return String.join("&", pairs);
  }

  // ---- and what it would not

  private static Asked changed(Asked asked, Asked other, Mutants mutants) {
    String body = asked.body();
    String path = asked.path();
    switch (mutants.any(List.of(0, 0, 0, 1, 1, 2))) {
      case 0 -> body = mutants.of(body, other.body());
      case 1 -> {
        int slash = path.lastIndexOf('/', Math.max(0, path.length() - 2));
        String edge = Request.encoded(mutants.any(Mutants.EDGES));
        path =
            mutants.oneIn(2) ? path.substring(0, slash + 1) + edge : path + "?" + edge + "=" + edge;
      }
      default -> body = other.body();
    }
    String method =
        mutants.oneIn(8)
            ? mutants.any(List.of("GET", "PUT", "POST", "DELETE", "HEAD"))
            : asked.method();
    return new Asked(method, path, body);
  }
}
