package quadrille.cli.serve;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.net.http.HttpResponse;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Deque;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.MatchResult;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import quadrille.cli.Conformance;
import quadrille.document.FileStore;

/** Every room of the page that its own links lead to is valid HTML. */
final class ValidRoomsTest {

  private static final Pattern LINK = Pattern.compile("href=\"(/[^\"#]*)");

  /** So many pages of one kind are looked at. */
  private static final int OF_A_KIND = 2;

  @TempDir private Path folder;

  @Test
  void everyRoomIsValid() throws Exception {
    PracticeFolder practice = new PracticeFolder(folder, FileStore.USUAL, false);
    practice.prepare();
    for (String chart : List.of("heart-disease.json", "mild-one-visit.json", "moderate.csv")) {
      Files.copy(Path.of("../demo-data", chart), folder.resolve("charts").resolve(chart));
    }
    Clock clock = Clock.fixed(Instant.parse("2026-03-02T08:00:00Z"), ZoneOffset.UTC);
    DemoPractice.begin(folder, FileStore.USUAL, clock);
    List<String> broken = Collections.synchronizedList(new ArrayList<>());
    List<String> faults = new ArrayList<>();
    Map<String, Integer> kinds = new HashMap<>();
    try (PageServer server = PageServer.open(practice, 0, clock, broken::add)) {
      PageSession session = new PageSession(server.address());
      String draft =
          session
              .send("POST", "/mouths", "teeth=28&numbering=universal", "")
              .headers()
              .firstValue("Location")
              .orElseThrow();
      Set<String> met = new TreeSet<>(Set.of("/", draft, "/no-such-room"));
      Deque<String> open = new ArrayDeque<>(met);
      while (!open.isEmpty()) {
        String path = open.remove();
        HttpResponse<String> answer = session.get(path);
        String type = answer.headers().firstValue("Content-Type").orElse("");
        if (!type.startsWith("text/html")) {
          continue;
        }
        faults.addAll(Conformance.faults(path, answer.body()));
        for (MatchResult link : LINK.matcher(answer.body()).results().toList()) {
          String to = link.group(1).replace("&amp;", "&");
          String kind =
              to.replaceAll("[0-9a-f]{8,}", "*").replaceAll("=[^&]*", "=").replaceAll("\\d+", "#");
          if (kinds.getOrDefault(kind, 0) < OF_A_KIND && met.add(to)) {
            kinds.merge(kind, 1, Integer::sum);
            open.add(to);
          }
        }
      }
    }
    System.err.println("Rooms: " + new TreeSet<>(kinds.keySet()));
    assertEquals(List.of(), broken);
    assertEquals("", String.join("\n", faults));
    for (String room :
        List.of(
            "/mouths",
            "/mouth/*/course",
            "/diary",
            "/practice",
            "/import",
            "/log/*/print",
            "/chair/*/#")) {
      assertTrue(kinds.containsKey(room), room + " is not among " + kinds.keySet());
    }
  }
}
