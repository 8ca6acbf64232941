package quadrille.cli;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpRequest.BodyPublishers;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodyHandlers;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import java.util.TreeMap;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.concurrent.locks.LockSupport;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import quadrille.document.Expected;
import quadrille.facts.chart.ChartReader;
import quadrille.facts.chart.Numbering;
import quadrille.facts.practice.PracticeReader;
import quadrille.treatment.record.CourseFile;
import quadrille.treatment.record.CourseLog;
import quadrille.treatment.recording.LoggedPlan;
import quadrille.treatment.recording.RunningVisit;

/**
 * The page's server killed at any moment while a mouth is typed, a chart is saved or changed, a
 * course is accepted, a visit is run at the chair and a setting is kept: what it said to be written
 * is there, whole, and so is what went before; what was under way is there whole or not at all.
 */
final class KilledPageTest {

  private static final int KILLS = Boolean.getBoolean("quadrille.kills") ? 100 : 3;

  /** Requests that are sent before the kill, at the most; it comes some moments after the last. */
  private static final int MOST_REQUESTS = 40;

  private static final int MOST_MILLIS = 30;

  private static final String MOUTH =
      "numbering iso3950\nage 54 weight 70 longest 90\nalerts none\n"
          + "16 light | 5b 2 5 | 3 2 3\n15 light | 3 2 3 | 3 2 3\n";

  @TempDir private Path folder;

  private final Random random = new Random(15);
  private final HttpClient client =
      HttpClient.newBuilder().connectTimeout(Duration.ofSeconds(30)).build();

  /** What was said to be written, by file; null where it was said to be gone. */
  private final Map<String, String> written = new TreeMap<>();

  /** What the last request would write, by file; it may have come to pass. */
  private final Map<String, String> pending = new TreeMap<>();

  private final Map<String, Integer> acknowledged = new TreeMap<>();
  private final AtomicInteger sent = new AtomicInteger();
  private int cases;

  private String base = "";
  private String cookie = "";

  @Test
  void nothingThatWasSaidToBeWrittenIsLost() throws Exception {
    killed(false);
    assertTrue(acknowledged.size() > (KILLS < 10 ? 0 : 3), acknowledged.toString());
  }

  /** Every kill falls while a visit is run at the chair, once a course has been accepted. */
  @Test
  void nothingThatWasTickedIsLost() throws Exception {
    killed(true);
    assertTrue(acknowledged.getOrDefault("tick", 0) >= KILLS / 3, acknowledged.toString());
  }

  /**
   * @param visit whether nothing but a visit is run
   */
  private void killed(boolean visit) throws Exception {
    if (visit) {
      begin();
    }
    for (int i = 0; i < KILLS; i++) {
      Process server = start();
      try {
        checkShown();
        int requests = sent.get() + random.nextInt(MOST_REQUESTS);
        long nanos = random.nextInt(MOST_MILLIS * 1_000_000);
        Thread killer = new Thread(() -> kill(server, requests, nanos));
        killer.start();
        work(server, visit);
        killer.join();
      } finally {
        server.destroyForcibly().waitFor();
      }
      checkFolder();
    }
    System.err.println("killed " + KILLS + " times; acknowledged: " + acknowledged);
  }

  /** A course to run a visit of, with nobody killed. */
  private void begin() throws Exception {
    Process server = start();
    try {
      typeAndSave();
      accept();
    } finally {
      server.destroyForcibly().waitFor();
    }
    checkFolder();
    sent.set(0);
  }

  private void kill(Process server, int requests, long nanos) {
    while (sent.get() < requests && server.isAlive()) {
      LockSupport.parkNanos(100_000);
    }
    LockSupport.parkNanos(nanos);
    server.destroyForcibly();
  }

  private Process start() throws Exception {
    List<String> words =
        new ArrayList<>(Spawned.program("-XX:TieredStopAtLevel=1", "-XX:+UseSerialGC"));
    words.addAll(List.of("serve", folder.toString(), "--format=json"));
    Process server =
        new ProcessBuilder(words).redirectError(ProcessBuilder.Redirect.DISCARD).start();
    BufferedReader out = new BufferedReader(new InputStreamReader(server.getInputStream(), UTF_8));
    String line = String.valueOf(out.readLine());
    URI address = URI.create(line.split("\"address\": \"")[1].split("\"")[0]);
    base = "http://127.0.0.1:" + address.getPort();
    HttpResponse<String> in =
        client.send(HttpRequest.newBuilder(address).build(), BodyHandlers.ofString());
    String set = in.headers().firstValue("Set-Cookie").orElseThrow();
    cookie = set.substring(0, set.indexOf(';'));
    return server;
  }

  private HttpResponse<String> send(String method, String path, String body, String ifMatch)
      throws IOException {
    HttpRequest.Builder request =
        HttpRequest.newBuilder(URI.create(base + path))
            .timeout(Duration.ofMinutes(5))
            .header("Cookie", cookie)
            .header("Origin", base)
            .method(method, BodyPublishers.ofString(body));
    if (!ifMatch.isEmpty()) {
      request.header("If-Match", ifMatch);
    }
    sent.incrementAndGet();
    try {
      return client.send(request.build(), BodyHandlers.ofString());
    } catch (InterruptedException ending) {
      throw new IllegalStateException(ending);
    }
  }

  private String get(String path) throws IOException {
    return send("GET", path, "", "").body();
  }

  /** Works until nobody answers any more. */
  private void work(Process server, boolean visit) throws Exception {
    try {
      while (true) {
        switch (cases == 0 ? 0 : visit ? 3 : random.nextInt(6)) {
          case 0 -> typeAndSave();
          case 1 -> edit();
          case 2 -> accept();
          case 3, 4 -> tick();
          default -> keep();
        }
      }
    } catch (IOException killed) {
      // What was under way is in pending. A server that only is slow has not been killed.
      if (!server.waitFor(1, TimeUnit.SECONDS)) {
        throw killed;
      }
    }
  }

  private void will(String file, String text) {
    pending.put(file, text);
  }

  private void done(String what, HttpResponse<String> answer) {
    assertTrue(answer.statusCode() < 400, what + " " + answer.statusCode() + " " + answer.body());
    written.putAll(pending);
    pending.clear();
    acknowledged.merge(what, 1, Integer::sum);
  }

  private static String field(String json, String name) {
    return json.split("\"" + name + "\": \"")[1].split("\"")[0];
  }

  // ---- a mouth; its draft is known by the case that it names

  private void typeAndSave() throws IOException {
    String mouth =
        send("POST", "/mouths", "teeth=28&numbering=iso3950", "")
            .headers()
            .firstValue("Location")
            .orElseThrow();
    String revision = get(mouth).split("data-draft=\"")[1].split("\"")[0];
    String name = "K-" + ++cases;
    type(mouth, name, "# of nothing\ncase " + name + "\n" + MOUTH, revision, name + ".teeth");
  }

  private void type(String mouth, String name, String text, String revision, String chart)
      throws IOException {
    String known = revision;
    int from = text.length() - 1 - random.nextInt(12);
    for (int at = from; at <= text.length(); at++) {
      will("draft " + name, text.substring(0, at));
      HttpResponse<String> kept = send("PUT", mouth + "/draft", text.substring(0, at), known);
      done("key", kept);
      known = field(kept.body(), "revision");
    }
    will("draft " + name, "");
    will("charts/" + chart, text.substring(text.indexOf("case")));
    done("save", send("POST", mouth + "/save", "", known));
  }

  private @Nullable String mouth(String name) throws IOException {
    String home = get("/mouths");
    return home.contains("> of " + name + "<")
        ? "/mouth/"
            + home.split("> of " + name + "<")[0].replaceFirst("(?s).*/mouth/", "").split("/")[0]
        : null;
  }

  private void edit() throws IOException {
    String name = "K-" + (1 + random.nextInt(cases));
    String mouth = mouth(name);
    if (mouth == null) {
      return;
    }
    String page = get(mouth);
    String of =
        String.valueOf(
            Expected.bytes(Files.readAllBytes(folder.resolve("charts/" + name + ".teeth")))
                .revision());
    String draft = page.split("data-draft=\"")[1].split("\"")[0];
    String text =
        "# of "
            + of
            + "\ncase "
            + name
            + "\n"
            + MOUTH.replace("age 54", "age " + (20 + random.nextInt(60)));
    type(mouth, name, text, draft, name + ".teeth");
  }

  private void accept() throws IOException {
    String name = "K-" + (1 + random.nextInt(cases));
    String mouth = mouth(name);
    if (mouth == null || written.containsKey("courses/" + name + ".ndjson")) {
      return;
    }
    String course = mouth + "/course/1";
    String card = get(course + "?effort=quick");
    will("courses/" + name + ".ndjson", name);
    HttpResponse<String> answer =
        send("POST", course + "/accept?effort=quick", "", field(card, "seen"));
    if (answer.statusCode() == 409 && answer.body().contains("begun already")) {
      // The server was killed after it had begun it, and before it could say so.
      written.putAll(pending);
      pending.clear();
    } else {
      done("accept", answer);
    }
  }

  /** Runs the visit of a course: each tick counts once, and none that was acknowledged is lost. */
  private void tick() throws IOException {
    Matcher logs = Pattern.compile("/log/([^/\"]+)/").matcher(get("/"));
    List<String> ids = logs.results().map(one -> one.group(1)).distinct().toList();
    if (ids.isEmpty()) {
      return;
    }
    String chair = "/chair/" + ids.get(random.nextInt(ids.size())) + "/1";
    String page = get(chair);
    if (page.contains("Who works")) {
      send("POST", chair + "/begin", "clinician=Ines", "");
      page = get(chair);
    }
    String name = page.split("class=\"counts\"><bdi>")[1].split("<")[0];
    String file = "chair/" + name + ".ndjson-1.json";
    int known = 0;
    Matcher ticks = Pattern.compile("number(?:&#34;|\"): (\\d+)").matcher(page);
    while (ticks.find()) {
      known = Math.max(known, Integer.parseInt(ticks.group(1)));
    }
    for (int more = random.nextInt(12); more >= 0; more--) {
      String note =
          "{\"number\": "
              + ++known
              + ", \"at\": \"2026-03-02T09:00:00Z\", \"do\": \"note\", \"text\": \"t\"}";
      will(file, Integer.toString(known));
      done("tick", send("POST", chair + "/ticks", "{\"ticks\": [" + note + "]}", ""));
    }
  }

  private void keep() throws IOException {
    String pointer = "%2Fminutes%2FfinishingSeconds";
    String revision =
        get("/practice/setting?setting=" + pointer)
            .split("name=\"revision\" value=\"")[1]
            .split("\"")[0];
    int value = 20 + random.nextInt(100);
    will("practice.json", Integer.toString(value));
    done(
        "setting",
        send(
            "POST",
            "/practice/keep",
            "setting=" + pointer + "&by=Ines&value=" + value + "&revision=" + revision,
            ""));
  }

  // ---- what is there

  private void checkShown() throws IOException {
    String home = get("/mouths");
    for (String file : written.keySet()) {
      if (file.startsWith("charts/")) {
        String name = file.substring(7, file.length() - 6);
        assertTrue(home.contains(name), name);
      }
    }
    assertTrue(get("/").contains("What waits"));
    assertTrue(!get("/").contains("Cannot be read"));
  }

  private void checkFolder() throws Exception {
    Map<String, String> drafts = drafts();
    for (Map.Entry<String, String> file : written.entrySet()) {
      String name = file.getKey();
      @Nullable String there =
          name.startsWith("draft ") ? drafts.getOrDefault(name, "") : there(name);
      @Nullable String underWay = pending.get(name);
      assertTrue(
          file.getValue().equals(there) || underWay != null && underWay.equals(there),
          name + ": " + there);
    }
    for (Map.Entry<String, String> file : pending.entrySet()) {
      if (!file.getKey().startsWith("draft ")) {
        @Nullable String there = there(file.getKey());
        String before = written.get(file.getKey());
        if (there != null && !there.equals(before)) {
          assertEquals(file.getValue(), there, file.getKey());
        }
        if (there != null) {
          written.put(file.getKey(), there);
        }
      } else {
        written.put(file.getKey(), drafts.getOrDefault(file.getKey(), ""));
      }
    }
    pending.clear();
  }

  private Map<String, String> drafts() throws IOException {
    Map<String, String> drafts = new TreeMap<>();
    try (Stream<Path> files = Files.list(folder.resolve("drafts"))) {
      for (Path file : files.filter(one -> one.toString().endsWith(".draft")).toList()) {
        String text = Files.readString(file);
        String name = text.contains("case K-") ? text.split("case ")[1].split("\\s")[0] : "";
        // A new mouth's chart is written first, and then its draft goes.
        if (!file.getFileName().toString().startsWith("new-")
            || !Files.exists(folder.resolve("charts/" + name + ".teeth"))) {
          drafts.put("draft " + name, text);
        }
      }
    }
    return drafts;
  }

  /** What a file says; every file that is there is whole. */
  private @Nullable String there(String name) throws Exception {
    Path file = folder.resolve(name);
    if (!Files.exists(file)) {
      return null;
    }
    if (name.startsWith("courses/")) {
      CourseLog log = CourseFile.read(file);
      assertNull(log.torn(), name);
      assertEquals(List.of(), LoggedPlan.of(log).audit(), name);
      return log.planned().course().caseName();
    }
    if (name.startsWith("chair/")) {
      RunningVisit running = RunningVisit.read(name, Files.readString(file), Numbering.ISO3950);
      assertTrue(running.whole(), name);
      return Integer.toString(running.ticks().size());
    }
    if (name.equals("practice.json")) {
      return Integer.toString(
          (int)
              PracticeReader.read(name, Files.readString(file))
                  .minutes()
                  .finishingSeconds()
                  .value());
    }
    String age = ChartReader.read(file).patient().ageYears() + "";
    String said = ChartReader.read(file).caseName();
    return "case " + said + "\n" + MOUTH.replace("age 54", "age " + age);
  }
}
