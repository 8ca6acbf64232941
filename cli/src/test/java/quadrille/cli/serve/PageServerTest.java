package quadrille.cli.serve;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertNotEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.NetworkInterface;
import java.net.Socket;
import java.net.URI;
import java.net.URLEncoder;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpRequest.BodyPublishers;
import java.net.http.HttpResponse;
import java.net.http.HttpResponse.BodyHandlers;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Collections;
import java.util.EnumSet;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import quadrille.cli.render.page.Language;
import quadrille.cli.render.page.ProgressKind;
import quadrille.cli.render.page.ProgressPages;
import quadrille.document.FileStore;
import quadrille.facts.chart.Aspect;
import quadrille.facts.chart.Tooth;
import quadrille.plan.course.Entry;
import quadrille.plan.course.Visit;
import quadrille.plan.course.WishOutcome;
import quadrille.treatment.record.CourseFile;
import quadrille.treatment.record.CourseLog;
import quadrille.treatment.record.CourseProgress;
import quadrille.treatment.record.CourseState;
import quadrille.treatment.record.Event;
import quadrille.treatment.record.Observation;
import quadrille.treatment.record.PartMinutes;
import quadrille.treatment.record.StepDone;
import quadrille.treatment.record.VisitDone;
import quadrille.treatment.recording.LoggedPlan;

/** The page's server as a browser sees it, without one. */
final class PageServerTest {

  private static final String MOUTH =
      """
      # of nothing
      case K-1
      numbering iso3950
      age 54 weight 70 longest 90
      alerts none
      16 heavy | 6b 4 7b | 5 4 6
      15 light | 3 2 3 | 3 2 3
      """;

  private static final Clock CLOCK =
      Clock.fixed(Instant.parse("2026-03-02T08:00:00Z"), ZoneOffset.UTC);

  @TempDir private Path folder;

  private final List<String> faults = new ArrayList<>();
  private final HttpClient client = HttpClient.newHttpClient();
  private PageServer server;
  private String base;
  private String cookie;

  @BeforeEach
  void open() throws Exception {
    PracticeFolder practice = new PracticeFolder(folder, FileStore.USUAL, false);
    practice.prepare();
    server = PageServer.open(practice, 0, CLOCK, faults::add);
    URI address = URI.create(server.address());
    base = "http://127.0.0.1:" + address.getPort();
    HttpResponse<String> in =
        client.send(HttpRequest.newBuilder(address).build(), BodyHandlers.ofString());
    assertEquals(303, in.statusCode());
    String set = in.headers().firstValue("Set-Cookie").orElseThrow();
    assertTrue(set.endsWith("; Path=/; HttpOnly; SameSite=Strict"), set);
    cookie = set.substring(0, set.indexOf(';'));
    assertFalse(server.address().contains(cookie.substring(cookie.indexOf('=') + 1)));
  }

  @AfterEach
  void close() {
    server.close();
    assertEquals(List.of(), faults);
  }

  private HttpResponse<String> get(String path) throws Exception {
    return client.send(
        HttpRequest.newBuilder(URI.create(base + path)).header("Cookie", cookie).build(),
        BodyHandlers.ofString());
  }

  private HttpResponse<String> send(String method, String path, String body, String ifMatch)
      throws Exception {
    HttpRequest.Builder request =
        HttpRequest.newBuilder(URI.create(base + path))
            .header("Cookie", cookie)
            .header("Origin", base)
            .method(method, BodyPublishers.ofString(body));
    if (!ifMatch.isEmpty()) {
      request.header("If-Match", ifMatch);
    }
    return client.send(request.build(), BodyHandlers.ofString());
  }

  /** The path of a new mouth. */
  private String begin() throws Exception {
    HttpResponse<String> begun = send("POST", "/mouths", "teeth=28&numbering=iso3950", "");
    assertEquals(303, begun.statusCode());
    return begun.headers().firstValue("Location").orElseThrow();
  }

  private static String field(String json, String name) {
    return json.split("\"" + name + "\": \"")[1].split("\"")[0];
  }

  private String revision(String mouth) throws Exception {
    return get(mouth).body().split("data-draft=\"")[1].split("\"")[0];
  }

  private List<String> files(String name) throws IOException {
    try (Stream<Path> all = Files.list(folder.resolve(name))) {
      return all.map(file -> file.getFileName().toString()).sorted().toList();
    }
  }

  @Test
  void whatIsTypedIsKeptWhateverThePracticeFileSays() throws Exception {
    String mouth = begin();
    Files.writeString(folder.resolve("practice.json"), "no practice");
    HttpResponse<String> kept = send("PUT", mouth + "/draft", MOUTH, revision(mouth));
    assertEquals(200, kept.statusCode(), kept.body());
    assertEquals(MOUTH, Files.readString(folder.resolve("drafts").resolve(files("drafts").get(0))));
  }

  @Test
  void aDraftIsDiscardedOnlyAsItWasRead() throws Exception {
    String mouth = begin();
    String read = revision(mouth);
    assertEquals(428, send("POST", mouth + "/discard", "", "").statusCode());
    String now = field(send("PUT", mouth + "/draft", MOUTH, read).body(), "revision");
    assertEquals(412, send("POST", mouth + "/discard", "", read).statusCode());
    assertEquals(1, files("drafts").size());
    assertEquals(303, send("POST", mouth + "/discard", "", now).statusCode());
    assertEquals(List.of(), files("drafts"));
  }

  /** A program that ended between the chart and its draft leaves both. */
  @Test
  void whatWasSavedByAProgramThatEndedIsSaved() throws Exception {
    String mouth = begin();
    String now = field(send("PUT", mouth + "/draft", MOUTH, revision(mouth)).body(), "revision");
    Path draft = folder.resolve("drafts").resolve(files("drafts").get(0));
    assertEquals(200, send("POST", mouth + "/save", "", now).statusCode());
    Files.writeString(draft, MOUTH);
    assertEquals(200, send("POST", mouth + "/save", "", now).statusCode());
    assertEquals(List.of(), files("drafts"));
    assertEquals(List.of("K-1.teeth"), files("charts"));
    for (String name : List.of("charts", "courses", "drafts")) {
      assertEquals(
          "rwx------",
          PosixFilePermissions.toString(Files.getPosixFilePermissions(folder.resolve(name))));
    }
  }

  // ---- who is answered

  @Test
  void withoutTheCookieNothingIsSaid() throws Exception {
    for (String path : List.of("/", "/page.css", "/mouth/0/draft", "/enter/wrong", "/enter/")) {
      HttpResponse<String> answer =
          client.send(
              HttpRequest.newBuilder(URI.create(base + path)).build(), BodyHandlers.ofString());
      assertEquals(403, answer.statusCode(), path);
      assertTrue(answer.body().startsWith("Open the page by the address"), path);
    }
    HttpResponse<String> wrong =
        client.send(
            HttpRequest.newBuilder(URI.create(base + "/"))
                .header("Cookie", cookie.replaceFirst(".$", "x"))
                .build(),
            BodyHandlers.ofString());
    assertEquals(403, wrong.statusCode());
  }

  @ParameterizedTest
  @ValueSource(strings = {"http://evil.example", "null", "https://127.0.0.1", "http://localhost"})
  void anotherOriginIsRefused(String origin) throws Exception {
    for (String method : List.of("GET", "POST")) {
      HttpResponse<String> answer =
          client.send(
              HttpRequest.newBuilder(URI.create(base + "/"))
                  .header("Cookie", cookie)
                  .header("Origin", origin)
                  .method(method, BodyPublishers.noBody())
                  .build(),
              BodyHandlers.ofString());
      assertEquals(403, answer.statusCode());
    }
    assertEquals(List.of(), files("drafts"));
  }

  @Test
  void whatChangesSomethingNeedsAnOrigin() throws Exception {
    HttpResponse<String> answer =
        client.send(
            HttpRequest.newBuilder(URI.create(base + "/mouths"))
                .header("Cookie", cookie)
                .POST(BodyPublishers.noBody())
                .build(),
            BodyHandlers.ofString());
    assertEquals(403, answer.statusCode());
  }

  private String raw(String request) throws IOException {
    try (Socket socket = new Socket()) {
      socket.connect(
          new InetSocketAddress(InetAddress.getLoopbackAddress(), URI.create(base).getPort()),
          5000);
      socket.setSoTimeout(10_000);
      OutputStream out = socket.getOutputStream();
      out.write(request.getBytes(UTF_8));
      out.flush();
      InputStream in = socket.getInputStream();
      return new String(in.readNBytes(12), UTF_8);
    }
  }

  @Test
  void aForeignHostIsRefused() throws IOException {
    for (String host : List.of("evil.example", "127.0.0.1", "localhost:1", "127.0.0.1.evil:80")) {
      assertEquals(
          "HTTP/1.1 421",
          raw("GET / HTTP/1.1\r\nHost: " + host + "\r\nCookie: " + cookie + "\r\n\r\n"));
    }
    assertEquals("HTTP/1.1 421", raw("GET / HTTP/1.1\r\nCookie: " + cookie + "\r\n\r\n"));
  }

  @Test
  void everyAnswerIsHardened() throws Exception {
    for (String path : List.of("/", "/mouth.js", "/nothing")) {
      HttpResponse<String> answer = get(path);
      String policy = answer.headers().firstValue("Content-Security-Policy").orElseThrow();
      assertTrue(policy.startsWith("default-src 'none'; script-src 'self'; style-src 'self'"));
      assertFalse(policy.contains("unsafe"), policy);
      assertEquals("nosniff", answer.headers().firstValue("X-Content-Type-Options").orElseThrow());
      assertEquals("no-store", answer.headers().firstValue("Cache-Control").orElseThrow());
    }
  }

  @Test
  void aLargeBodyIsRefusedAndASmallOneServedAfterIt() throws Exception {
    // Some clients are still sending when they are refused, and find the line closed.
    try {
      assertEquals(413, send("POST", "/read", "x".repeat(10 << 20), "").statusCode());
    } catch (IOException closed) {
      assertEquals(200, get("/").statusCode());
    }
    assertEquals(413, send("POST", "/read", "x".repeat((1 << 20) + 1), "").statusCode());
    assertEquals(200, get("/").statusCode());
  }

  @Test
  void slowBrowsersKeepNobodyOut() throws Exception {
    List<Socket> slow = new ArrayList<>();
    try {
      for (int i = 0; i < 200; i++) {
        Socket socket = new Socket(InetAddress.getLoopbackAddress(), URI.create(base).getPort());
        socket.getOutputStream().write("GET / HTTP/1.1\r\nHost: ".getBytes(UTF_8));
        socket.getOutputStream().flush();
        slow.add(socket);
      }
      assertEquals(200, get("/").statusCode());
    } finally {
      for (Socket socket : slow) {
        socket.close();
      }
    }
    assertEquals(200, get("/").statusCode());
  }

  @Test
  void aThousandRequestsAtOnceAreServedOrTurnedAwayAndLeaveNothing() throws Exception {
    long before = 0;
    for (int round = 0; round < 3; round++) {
      List<CompletableFuture<Integer>> answers = new ArrayList<>();
      for (int i = 0; i < 1000; i++) {
        HttpRequest request =
            HttpRequest.newBuilder(URI.create(base + "/mouths"))
                .timeout(Duration.ofSeconds(120))
                .header("Cookie", cookie)
                .build();
        answers.add(
            client
                .sendAsync(request, BodyHandlers.discarding())
                .thenApply(HttpResponse::statusCode)
                .exceptionally(turnedAway -> 0));
      }
      long served = answers.stream().filter(answer -> answer.join() == 200).count();
      assertTrue(served > 0);
      assertTrue(answers.stream().allMatch(answer -> List.of(0, 200).contains(answer.join())));
      assertEquals(200, get("/mouths").statusCode());
      System.gc();
      long used = Runtime.getRuntime().totalMemory() - Runtime.getRuntime().freeMemory();
      if (round == 1) {
        before = used;
      }
      assertTrue(round < 2 || used < before + (32L << 20), used - before + " bytes more");
    }
  }

  @Test
  void nothingListensBeyondThisMachine() throws Exception {
    int port = URI.create(base).getPort();
    for (NetworkInterface one : Collections.list(NetworkInterface.getNetworkInterfaces())) {
      for (InetAddress address : Collections.list(one.getInetAddresses())) {
        if (!address.isLoopbackAddress()) {
          try (Socket socket = new Socket()) {
            assertThrows(
                IOException.class,
                () -> socket.connect(new InetSocketAddress(address, port), 2000),
                address.toString());
          }
        }
      }
    }
  }

  @Test
  void aScriptInAnyTextIsText() throws Exception {
    String evil = "<script>alert(1)</script>";
    String diary = Files.readString(Path.of("../demo-data/diary.json"));
    Files.writeString(
        folder.resolve("diary.json"),
        diary
            .replaceAll("(?s)\"calendars\": \\[.*?\\]", "\"calendars\": []")
            .replaceAll("\"name\": \"[^\"]*(Example)\"", "\"name\": \"" + evil + "$1\"")
            .replace("DEMO-202", evil));
    String day = get("/?day=2026-03-04").body();
    assertTrue(day.contains("&lt;script>") || day.contains("&lt;script&gt;"), day);
    assertHarmless(day);
    String setting = "/practice/setting?setting=%2Fminutes%2FfinishingSeconds";
    String typed =
        "setting=%2Fminutes%2FfinishingSeconds&value=33&source=%22%3E%3Cscript%3Ealert(1)%3C%2Fscript%3E"
            + "&by=%22%3E%3Cscript%3Ealert(1)%3C%2Fscript%3E&mouth=%3Cscript%3Ealert(1)&revision="
            + hidden(get(setting), "revision");
    assertHarmless(send("POST", "/practice/try", typed, "").body());
    assertHarmless(send("POST", "/practice/try", typed + "&value=x", "").body());
    assertEquals(303, send("POST", "/practice/keep", typed, "").statusCode());
    for (String page : List.of("/practice", setting, "/practice?kept=%3Cscript%3Ealert(1)")) {
      assertHarmless(get(page).body());
    }
    // An answer in JSON is no page: its text is told as text, and taken for nothing else.
    HttpResponse<String> read = send("POST", "/read", "case \"" + evil + "\"\n" + evil + "\n", "");
    assertEquals("application/json", read.headers().firstValue("Content-Type").orElse(""));
    assertEquals("nosniff", read.headers().firstValue("X-Content-Type-Options").orElse(""));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "/mouth/..%2f..%2fetc/", "/mouth/%2e%2e/readback", "/../practice.json", "/PageServer.class",
        "/mouth//draft", "/page.css/..", "/mouth/0000000000000000", "/%00"
      })
  void aPathThatIsNoneLeadsNowhere(String path) throws Exception {
    int status = get(path).statusCode();
    assertTrue(status == 404 || status == 400, path + " " + status);
  }

  // ---- a mouth

  @Test
  void aMouthIsTypedKeptAndSaved() throws Exception {
    String mouth = begin();
    assertTrue(get(mouth).body().contains("17 ?"), mouth);
    String first = revision(mouth);
    HttpResponse<String> open =
        send("PUT", mouth + "/draft", MOUTH.replace("4 6\n", "? 6\n"), first);
    assertEquals(200, open.statusCode(), open.body());
    assertTrue(open.body().contains("not filled in yet"), open.body());
    assertTrue(open.body().contains("\"whole\": false"), open.body());
    String second = field(open.body(), "revision");
    assertEquals(422, send("POST", mouth + "/save", "", second).statusCode());
    HttpResponse<String> whole = send("PUT", mouth + "/draft", MOUTH, second);
    assertTrue(whole.body().contains("\"whole\": true"), whole.body());
    assertFalse(whole.body().contains("\"minutes\": 0 }\n  ],\n  \"minutes\": 0"), whole.body());
    HttpResponse<String> saved = send("POST", mouth + "/save", "", field(whole.body(), "revision"));
    assertEquals(200, saved.statusCode(), saved.body());
    assertEquals(List.of(), files("drafts"));
    assertEquals(List.of("K-1.teeth"), files("charts"));
    assertEquals(404, get(mouth).statusCode());
    String readback = field(saved.body(), "to");
    assertFalse(readback.contains("K-1"), readback);
    assertTrue(get(readback).body().contains("16 heavy"), readback);
  }

  @Test
  void aStaleDraftIsRefusedAndNothingIsWrittenOver() throws Exception {
    String mouth = begin();
    String first = revision(mouth);
    assertEquals(200, send("PUT", mouth + "/draft", MOUTH, first).statusCode());
    assertEquals(412, send("PUT", mouth + "/draft", "case mine\n", first).statusCode());
    assertEquals(428, send("PUT", mouth + "/draft", "case mine\n", "").statusCode());
    assertTrue(get(mouth).body().contains("case K-1"));
    assertEquals(412, send("POST", mouth + "/save", "", first).statusCode());
  }

  @Test
  void aChartThatWasChangedMeanwhileIsShownBesideMine() throws Exception {
    Path chart = folder.resolve("charts/K-1.teeth");
    Files.writeString(chart, MOUTH.substring(MOUTH.indexOf("case")));
    String home = get("/mouths").body();
    String mouth = "/mouth/" + home.split("/mouth/")[1].split("/")[0];
    String page = get(mouth).body();
    String of = page.split("data-of=\"")[1].split("\"")[0];
    String mine = MOUTH.replace("nothing", of).replace("5 4 6", "5 4 5");
    String draft = field(send("PUT", mouth + "/draft", mine, "nothing").body(), "revision");
    Files.writeString(chart, Files.readString(chart).replace("age 54", "age 55"));
    HttpResponse<String> both = send("POST", mouth + "/save", "", draft);
    assertEquals(409, both.statusCode());
    assertTrue(both.body().contains("age 55") && both.body().contains("5  4  5"), both.body());
    assertTrue(Files.readString(chart).contains("age 55"));
    String again = mine.replace(of, field(both.body(), "revision"));
    String kept = field(send("PUT", mouth + "/draft", again, draft).body(), "revision");
    assertEquals(200, send("POST", mouth + "/save", "", kept).statusCode());
    assertTrue(Files.readString(chart).contains("age 54"));
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "../../evil", "/etc/passwd", "CON", "a/b\\c", "..", "x\u0000y", "<script>alert(1)</script>",
        "\" onload=\"alert(1)", "K-1 #7", "${7*7}", "\u202Eevil", "nul.txt", ".", "-o"
      })
  void aCaseIsAnythingAndItsFileStaysInTheFolder(String caseName) throws Exception {
    String mouth = begin();
    String quoted = caseName.replace("\\", "\\\\").replace("\"", "\\\"");
    String text = MOUTH.replace("case K-1", "case \"" + quoted + "\"");
    String draft = field(send("PUT", mouth + "/draft", text, revision(mouth)).body(), "revision");
    String home = get("/mouths").body();
    assertHarmless(home);
    HttpResponse<String> saved = send("POST", mouth + "/save", "", draft);
    if (caseName.indexOf(0) >= 0) {
      assertEquals(422, saved.statusCode());
      return;
    }
    assertEquals(200, saved.statusCode(), saved.body());
    assertEquals(1, files("charts").size());
    assertTrue(files("charts").get(0).matches("[A-Za-z0-9][A-Za-z0-9._-]*\\.teeth"));
    for (String path : List.of("/", field(saved.body(), "to"))) {
      assertHarmless(get(path).body());
    }
  }

  /** Neither a tag nor an attribute of one came out of a case. */
  private static void assertHarmless(String page) {
    assertFalse(page.contains("<script>alert"), page);
    assertFalse(Pattern.compile("<[^>]*onload=").matcher(page).find(), page);
  }

  @Test
  void aScriptInAnyFieldIsText() throws Exception {
    String evil = "<img/src=x/onerror=alert(1)>";
    for (String line : List.of("charted ", "age ", "weight ", "longest ", "alerts ", "16 ")) {
      String mouth = begin();
      send("PUT", mouth + "/draft", MOUTH + line + evil + "\n", revision(mouth));
      assertFalse(get(mouth).body().contains(evil), line);
    }
    Files.writeString(folder.resolve("charts/bad.teeth"), "case " + evil + "\n" + evil + "\n");
    Files.writeString(folder.resolve("charts/" + "b<b>.json"), "{\"case\": \"" + evil + "\"}");
    for (PracticeFolder.Mouth mouth : new PracticeFolder(folder, FileStore.USUAL, false).mouths()) {
      assertTrue(mouth.key().length() > 0);
    }
    String home = get("/mouths").body();
    assertFalse(home.contains(evil) || home.contains("b<b>"), home);
    Files.writeString(folder.resolve("practice.json"), "{\"schema\": \"" + evil + "\"}");
    HttpResponse<String> practice = get("/practice");
    assertEquals(422, practice.statusCode());
    assertFalse(practice.body().contains(evil), practice.body());
  }

  @Test
  void anyFormOfAChartIsTakenIn() throws Exception {
    for (String name : List.of("typical.json", "moderate.csv")) {
      String text = Files.readString(Path.of("../demo-data", name));
      HttpResponse<String> read = send("POST", "/read", text, "");
      assertEquals(200, read.statusCode());
      assertTrue(read.body().contains("case DEMO-"), read.body());
    }
    HttpResponse<String> broken = send("POST", "/read", "case K-1\n16 hevy\n", "");
    assertEquals(422, broken.statusCode());
    assertTrue(broken.body().contains("Did you mean"), broken.body());
  }

  // ---- the day

  @Test
  void aDayShowsWhoComesWhatItNeedsAndWhatWaits() throws Exception {
    assertTrue(get("/").body().contains("No course waits for anything."));
    for (String chart : List.of("heart-disease.json", "moderate.csv", "mild-one-visit.json")) {
      Files.copy(Path.of("../demo-data", chart), folder.resolve("charts").resolve(chart));
    }
    DemoPractice.begin(folder, FileStore.USUAL, CLOCK);
    String today = get("/").body();
    assertTrue(today.contains("DEMO-heart-disease") && today.contains("08:30"), today);
    assertTrue(today.contains("Stop: ask first") && today.contains("Lay out"), today);
    assertTrue(today.contains("To be recorded") && today.contains("To be booked"), today);
    assertFalse(today.contains("Wrong in the diary"), today);
    assertTrue(get("/?day=2026-02-23").body().contains("DEMO-moderate"));
    assertTrue(get("/?day=2026-02-24").body().contains("Next: <a href=\"/?day=2026-03-02\">"));
    for (String day : List.of("x", "2026-02-30", "-1", "+99999-01-01")) {
      assertEquals(404, get("/?day=" + day).statusCode(), day);
    }
    String log = "/log/" + today.split("/log/")[1].split("/")[0];
    assertTrue(get(log + "/print").body().contains("Course at a glance"));
    assertTrue(get(log + "/progress/print").body().contains("Course so far"));
    assertEquals(404, get("/log/0000/print").statusCode());
    assertEquals(404, send("POST", log + "/print", "", "").statusCode());
  }

  @Test
  void aDayIsShownThoughAFileCannotBeRead() throws Exception {
    Files.writeString(folder.resolve("diary.json"), "{\"schema\": 1}");
    Files.writeString(folder.resolve("courses/K-1.ndjson"), "none\n");
    HttpResponse<String> today = get("/");
    assertEquals(200, today.statusCode());
    assertTrue(today.body().contains("Cannot be read"), today.body());
    assertTrue(
        today.body().contains("<bdi>K-1.ndjson") && today.body().contains("<bdi>diary.json"));
  }

  // ---- at the chair

  @Test
  void aVisitIsRunByTicksAndBecomesTheRecordWithTheMinutesOfItsParts() throws Exception {
    Files.copy(Path.of("../demo-data/typical.json"), folder.resolve("charts/typical.json"));
    String mouth = "/mouth/" + get("/mouths").body().split("/mouth/")[1].split("/")[0];
    String course = mouth + "/course/3";
    String seen = field(get(course + "?effort=quick").body(), "seen");
    String log = field(send("POST", course + "/accept?effort=quick", "", seen).body(), "log");
    String chair = log.replace("/log/", "/chair/") + "/1";
    assertEquals(404, get(log.replace("/log/", "/chair/") + "/9").statusCode());
    assertTrue(get(chair).body().contains("Who works"));
    assertEquals(404, get(chair + "/end").statusCode());
    assertEquals(
        303, send("POST", chair + "/begin", "clinician=%3Cscript%3Ealert", "").statusCode());
    String page = get(chair).body();
    assertHarmless(page);
    assertTrue(page.contains("Is the inhaler here"), page);
    Path course1 = folder.resolve("courses").resolve(files("courses").get(0));
    Visit planned = CourseFile.read(course1).planned().course().visits().get(0);
    // Nothing is touched before every stop question has its answer, in whatever window.
    assertEquals(1, planned.stopQuestions().size());
    for (String early :
        List.of(
            tick(1, 0, "done", 0),
            tick(1, 0, "again", 0),
            tick(1, 0, "answer", 1) + "," + tick(2, 1, "done", 0),
            tick(1, 0, "answer", 0) + "," + tick(2, 1, "done", 0),
            tick(1, 0, "note", -1) + "," + tick(3, 1, "note", -1))) {
      HttpResponse<String> refused =
          send("POST", chair + "/ticks", "{\"ticks\": [" + early + "]}", "");
      assertEquals(412, refused.statusCode(), early);
    }
    assertFalse(get(chair + "/end").body().contains("Cannot be recorded"));
    List<String> ticks = new ArrayList<>();
    ticks.add(
        "{\"number\": 1, \"at\": \"2026-03-02T08:00:00.250Z\", \"do\": \"answer\", \"of\": 0, \"text\": \"yes (Ines)\"}");
    int at = 0;
    int steps = 0;
    int failed = -1;
    for (int i = 0; i < planned.sequence().size(); i++) {
      Entry entry = planned.sequence().get(i);
      if (entry instanceof Entry.Reposition
          || entry instanceof Entry.Wait
          || entry instanceof Entry.ChangeTip) {
        continue;
      }
      at += 2;
      String what = "done";
      if (entry instanceof Entry.Debride && ++steps >= 3) {
        what = steps == 3 ? "part" : "skip";
      }
      ticks.add(tick(ticks.size() + 1, at, what, i));
      if (entry instanceof Entry.Inject && failed < 0) {
        failed = i;
        at += 5;
        ticks.add(tick(ticks.size() + 1, at, "again", i));
      }
      if (steps == 1 && entry instanceof Entry.Debride) {
        ticks.add(tick(ticks.size() + 1, at, "pause", -1));
        at += 30;
        ticks.add(tick(ticks.size() + 1, at, "resume", -1));
        ticks.add(tick(ticks.size() + 1, at, "skip", i));
        ticks.add(tick(ticks.size() + 1, at, "undo", -1));
      }
    }
    // Some at a time, as a browser sends them; what is sent again counts once.
    for (int i = 0; i < ticks.size(); i += 3) {
      String some =
          String.join(",", ticks.subList(Math.max(0, i - 2), Math.min(ticks.size(), i + 3)));
      assertEquals(
          200, send("POST", chair + "/ticks", "{\"ticks\": [" + some + "]}", "").statusCode());
    }
    assertEquals(
        412,
        send("POST", chair + "/ticks", "{\"ticks\": [" + tick(1, 9, "skip", 0) + "]}", "")
            .statusCode());
    assertEquals(422, send("POST", chair + "/ticks", "{\"ticks\": [{}]}", "").statusCode());
    String end = get(chair + "/end").body();
    assertHarmless(end);
    assertTrue(end.contains("Not done: "), end);
    assertTrue(end.contains("1\u00a0injection did not numb."), end);
    assertEquals(1, CourseFile.read(course1).entries().size());
    // Recorded is what was looked over, and nothing that was ticked since.
    String looked = "revision=" + end.split("name=\"revision\" value=\"")[1].split("\"")[0];
    String note = tick(ticks.size() + 1, at, "note", -1).replace("}", ", \"text\": \"late\"}");
    assertEquals(
        200, send("POST", chair + "/ticks", "{\"ticks\": [" + note + "]}", "").statusCode());
    for (String other : List.of("", looked)) {
      assertEquals(303, send("POST", chair + "/record", other, "").statusCode());
      assertEquals(1, CourseFile.read(course1).entries().size());
    }
    end = get(chair + "/end").body();
    assertTrue(end.contains("late"), end);
    looked = "revision=" + end.split("name=\"revision\" value=\"")[1].split("\"")[0];
    assertEquals(303, send("POST", chair + "/record", looked, "").statusCode());
    assertEquals(List.of(), files("chair"));
    CourseLog recorded = CourseFile.read(course1);
    VisitDone done = recorded.recorded().get(0).done();
    assertTrue(done.interrupted());
    assertEquals(planned.steps().size(), done.steps().size());
    assertEquals(2, done.steps().stream().filter(StepDone::whole).count());
    assertEquals(1, done.steps().stream().filter(step -> step.share() == 0.5).count());
    assertEquals(planned.injections().size() + 1, done.injections().size());
    assertEquals(6.0, done.parts().stream().mapToDouble(PartMinutes::minutes).sum());
    assertEquals(at - 30.0, done.minutes());
    assertEquals("Asked: yes (Ines); late", done.note());
    assertEquals(404, get(chair).statusCode());
  }

  /** The address of a visit at the chair that Ines has begun, its stop questions answered. */
  private String running(int visit) throws Exception {
    Files.copy(Path.of("../demo-data/typical.json"), folder.resolve("charts/typical.json"));
    String mouth = "/mouth/" + get("/mouths").body().split("/mouth/")[1].split("/")[0];
    String course = mouth + "/course/3";
    String seen = field(get(course + "?effort=quick").body(), "seen");
    String log = field(send("POST", course + "/accept?effort=quick", "", seen).body(), "log");
    String chair = log.replace("/log/", "/chair/") + "/" + visit;
    assertEquals(303, send("POST", chair + "/begin", "clinician=Ines", "").statusCode());
    String answer = tick(1, 0, "answer", 0).replace("}", ", \"text\": \"yes (Ines)\"}");
    assertEquals(
        200, send("POST", chair + "/ticks", "{\"ticks\": [" + answer + "]}", "").statusCode());
    return chair;
  }

  private static List<Integer> rows(String page) {
    return Pattern.compile("<li data-of=\"(\\d+)\"")
        .matcher(page)
        .results()
        .map(row -> Integer.parseInt(row.group(1)))
        .toList();
  }

  private HttpResponse<String> ticked(String chair, String to, String... ticks) throws Exception {
    return send("POST", chair + to, "{\"ticks\": [" + String.join(",", ticks) + "]}", "");
  }

  @Test
  void anotherOrderAtTheChairHoldsThroughAReloadAndIsTakenBack() throws Exception {
    String chair = running(1);
    Path course = folder.resolve("courses").resolve(files("courses").get(0));
    List<Entry> sequence = CourseFile.read(course).planned().course().visits().get(0).sequence();
    List<Integer> planned = rows(get(chair).body());
    List<Integer> work =
        planned.stream().filter(at -> sequence.get(at) instanceof Entry.Debride).toList();
    int refused = 0;
    int next = -1;
    String order = "";
    for (int i = work.size() - 1; i > 0; i--) {
      int step = work.get(i);
      order = tick(2, 1, "order", -1).replace("}", ", \"order\": [" + step + "]}");
      // Not without a look at the rules.
      assertEquals(412, ticked(chair, "/ticks", order).statusCode());
      HttpResponse<String> answer = ticked(chair, "/order", order);
      if (answer.statusCode() == 200) {
        next = step;
        break;
      }
      assertEquals(422, answer.statusCode());
      assertTrue(answer.body().contains("Not in this order: "), answer.body());
      assertEquals(planned, rows(get(chair).body()));
      refused++;
    }
    assertTrue(next >= 0 && refused > 0, refused + " refused");
    List<Integer> now = rows(get(chair).body());
    assertEquals(planned, now.stream().sorted().toList());
    assertEquals(next, now.stream().filter(work::contains).findFirst().orElseThrow());
    assertEquals(412, ticked(chair, "/order", order).statusCode());
    for (String wrong : List.of("[]", "[0]", "[" + next + ", " + next + "]", "[999]")) {
      String bad = tick(3, 1, "order", -1).replace("}", ", \"order\": " + wrong + "}");
      assertEquals(412, ticked(chair, "/order", bad).statusCode(), wrong);
    }
    // What is over cannot come again, and stays through another order.
    assertEquals(200, ticked(chair, "/ticks", tick(3, 2, "done", now.get(0))).statusCode());
    assertEquals(now, rows(get(chair).body()));
    assertEquals(200, ticked(chair, "/ticks", tick(4, 2, "undo", -1)).statusCode());
    assertEquals(200, ticked(chair, "/ticks", tick(5, 2, "undo", -1)).statusCode());
    assertEquals(planned, rows(get(chair).body()));
  }

  /** A needle that was not given, a visit that runs late, a kept order that breaks a rule. */
  @Test
  void whatIsToBeMindedOfAnotherOrderIsSaidAtTheChair() throws Exception {
    String chair = running(1);
    Path course = folder.resolve("courses").resolve(files("courses").get(0));
    List<Entry> sequence = CourseFile.read(course).planned().course().visits().get(0).sequence();
    List<Integer> rows = rows(get(chair).body());
    int number = 2;
    int at = 0;
    while (!(sequence.get(rows.get(at)) instanceof Entry.Inject)) {
      assertEquals(
          200, ticked(chair, "/ticks", tick(number++, 1, "done", rows.get(at++))).statusCode());
    }
    List<Integer> work =
        rows.subList(at, rows.size()).stream()
            .filter(row -> sequence.get(row) instanceof Entry.Debride)
            .toList();
    assertEquals(
        200, ticked(chair, "/ticks", tick(number++, 1, "skip", rows.get(at))).statusCode());
    for (int step : work) {
      HttpResponse<String> answer =
          ticked(
              chair,
              "/order",
              tick(number, 2, "order", -1).replace("}", ", \"order\": [" + step + "]}"));
      assertEquals(422, answer.statusCode());
      assertTrue(answer.body().contains(" was not given, and work is left"), answer.body());
    }
    assertEquals(200, ticked(chair, "/ticks", tick(number++, 2, "undo", -1)).statusCode());
    assertEquals(
        200, ticked(chair, "/ticks", tick(number++, 50, "done", rows.get(at))).statusCode());
    int refused = -1;
    String kept = "";
    for (int i = work.size() - 1; i >= 0 && (kept.isEmpty() || refused < 0); i--) {
      String order =
          tick(number, 51, "order", -1).replace("}", ", \"order\": [" + work.get(i) + "]}");
      HttpResponse<String> answer = ticked(chair, "/order", order);
      if (answer.statusCode() == 422) {
        refused = work.get(i);
      } else if (answer.statusCode() == 200) {
        kept = answer.body();
      }
    }
    assertTrue(kept.contains(" behind the plan, by which numbness is reckoned"), kept);
    assertTrue(refused >= 0);
    assertTrue(get(chair).body().contains(" behind the plan, by which numbness is reckoned"));
    Path file = folder.resolve("chair").resolve(files("chair").get(0));
    String text = Files.readString(file);
    Files.writeString(file, text.replaceAll("(\"order\": ?)\\[[^\\]]*\\]", "$1[" + refused + "]"));
    String page = get(chair).body();
    assertTrue(page.contains("The order that was kept does not hold any more ("), page);
    assertEquals(rows, rows(page));
  }

  /**
   * A course from its first visit to its last: a block that fails, another order, a reload, an
   * early end, and what is left staged again.
   */
  @Test
  void aWholeCourseIsRunAtTheChair() throws Exception {
    String first = running(1);
    String log = first.substring(0, first.lastIndexOf('/'));
    Path file = folder.resolve("courses").resolve(files("courses").get(0));
    int orders = 0;
    int visits = 0;
    while (!CourseState.of(CourseFile.read(file)).toCome().isEmpty()) {
      assertTrue(++visits <= 6, visits + " visits");
      Visit visit = CourseState.of(CourseFile.read(file)).toCome().get(0);
      String chair = log + "/" + visit.number();
      int number = 1;
      if (visits > 1) {
        assertEquals(303, send("POST", chair + "/begin", "clinician=Ines", "").statusCode());
        for (int stop = 0; stop < visit.stopQuestions().size(); stop++) {
          String answer = tick(number++, 0, "answer", stop);
          assertEquals(
              200,
              ticked(chair, "/ticks", answer.replace("}", ", \"text\": \"yes\"}")).statusCode());
        }
      } else {
        number++;
      }
      List<Entry> sequence = visit.sequence();
      List<Integer> rows = new ArrayList<>(rows(get(chair).body()));
      boolean failed = visits > 1;
      boolean ordered = false;
      int over = 0;
      int early = visits == 1 ? rows.size() * 2 / 3 : rows.size();
      while (over < early) {
        int row = rows.get(over);
        assertEquals(200, ticked(chair, "/ticks", tick(number, number, "done", row)).statusCode());
        number++;
        over++;
        if (!failed && sequence.get(row) instanceof Entry.Inject) {
          failed = true;
          assertEquals(
              200, ticked(chair, "/ticks", tick(number, number, "again", row)).statusCode());
          number++;
        }
        // From the middle on, whatever may come next out of its turn.
        for (int at = rows.size() - 1; !ordered && over > rows.size() / 3 && at > over + 1; at--) {
          if (sequence.get(rows.get(at)) instanceof Entry.Debride) {
            String order =
                tick(number, number, "order", -1)
                    .replace("}", ", \"order\": [" + rows.get(at) + "]}");
            if (ticked(chair, "/order", order).statusCode() == 200) {
              number++;
              orders++;
              ordered = true;
              rows = new ArrayList<>(rows(get(chair).body()));
            }
          }
        }
      }
      String end = get(chair + "/end").body();
      assertFalse(end.contains("Cannot be recorded"), end);
      String looked = "revision=" + end.split("name=\"revision\" value=\"")[1].split("\"")[0];
      assertEquals(303, send("POST", chair + "/record", looked, "").statusCode());
      CourseLog now = CourseFile.read(file);
      assertEquals(visits, now.recorded().size());
      if (visits == 1) {
        String on = chair.replaceFirst("/chair/([^/]+)/.*", "/log/$1/on");
        String ways = get(on).body();
        assertTrue(ways.contains("Go on so"), ways);
        assertEquals(409, send("POST", on, "way=1&entries=1", "").statusCode());
        assertEquals(409, send("POST", on, "way=99&entries=2", "").statusCode());
        assertEquals(2, CourseFile.read(file).entries().size());
        assertEquals(303, send("POST", on, "way=1&entries=2", "").statusCode());
        assertTrue(CourseFile.read(file).entries().get(2).event() instanceof Event.Replanned);
        assertTrue(get(on).body().contains("The visits to come stay as they are."));
      }
      assertEquals(List.of(), LoggedPlan.of(CourseFile.read(file)).audit());
    }
    assertTrue(orders > 0 && visits > 2, orders + " orders, " + visits + " visits");
    CourseProgress progress = CourseProgress.of(CourseFile.read(file));
    assertEquals(1, progress.share(), 1e-9);
    assertEquals(List.of(), progress.leftOver());
    assertEquals(1, CourseState.of(CourseFile.read(file)).findings().size());
    assertEquals(List.of(), files("chair"));
    // The log alone tells the same, read again.
    String page = get("/log/" + log.substring(log.lastIndexOf('/') + 1) + "/progress/print").body();
    assertEquals(
        page,
        ProgressPages.of(
            CourseFile.read(file), EnumSet.of(ProgressKind.PROGRESS), Language.english()));
  }

  /** What was booked is done once its record is written, and the diary says so. */
  @Test
  void theDiaryLearnsAtTheEndThatTheVisitTookPlace() throws Exception {
    String chair = running(1);
    Path file = folder.resolve("courses").resolve(files("courses").get(0));
    String name = CourseFile.read(file).planned().course().caseName();
    Visit visit = CourseFile.read(file).planned().course().visits().get(0);
    String diary =
        """
        {"schema": "quadrille/diary/1", "zone": "UTC", "startEveryMinutes": 10,
         "clinicians": [{"id": "ada", "name": "Ada", "may": ["inject"],
           "hours": [{"days": ["monday"], "from": "07:00", "to": "17:00"}]}],
         "chairs": [{"id": "1", "name": "Chair 1"}], "stock": {"reprocessingMinutes": 60, "sets": []},
         "courses": [{"case": "NAME", "asked": "2026-03-01",
           "visits": [{"visit": 1, "minutes": MINUTES, "needs": ["inject"], "sets": []}],
           "reevaluateWeeks": {"from": 6, "to": 12}}],
         "bookings": [{"id": "NAME/1", "case": "NAME", "visit": 1, "start": "2026-03-02T08:00:00Z",
           "end": "ENDZ", "clinician": "ada", "chair": "1", "needs": ["inject"],
           "status": "promised"}]}
        """
            .replace("NAME", name)
            .replace("MINUTES", "" + visit.bookedMinutes())
            .replace(
                "ENDZ",
                Instant.parse("2026-03-02T08:00:00Z")
                    .plusSeconds(60L * visit.bookedMinutes())
                    .toString());
    Files.writeString(folder.resolve("diary.json"), diary);
    String end = get(chair + "/end").body();
    String looked = "revision=" + end.split("name=\"revision\" value=\"")[1].split("\"")[0];
    HttpResponse<String> recorded = send("POST", chair + "/record", looked, "");
    assertEquals(303, recorded.statusCode(), recorded.body());
    assertTrue(Files.readString(folder.resolve("diary.json")).contains("\"done\""));
  }

  @Test
  void whatIsFoundAtTheChairIsInTheRecord() throws Exception {
    String chair = running(1);
    String found =
        tick(2, 1, "found", -1)
            .replace(
                "}",
                ", \"found\": {\"what\": \"depth\", \"tooth\": \"16\", \"aspect\": \"facial\","
                    + " \"site\": \"distal\", \"depthMm\": 9, \"bleeding\": true}}");
    String pus =
        tick(3, 2, "found", -1)
            .replace(
                "}",
                ", \"found\": {\"what\": \"pus\", \"tooth\": \"16\", \"aspect\": \"lingual\"}}");
    // No implant there, and no such tooth: said now.
    for (String wrong :
        List.of(
            pus.replace("\"pus\"", "\"broken-sleeve\"").replace(", \"aspect\": \"lingual\"", ""),
            pus.replace("16", "18"))) {
      HttpResponse<String> refused =
          ticked(chair, "/ticks", wrong.replace("\"number\": 3", "\"number\": 2"));
      assertEquals(422, refused.statusCode(), refused.body());
      assertTrue(refused.body().contains("tooth 1"), refused.body());
    }
    assertEquals(200, ticked(chair, "/ticks", found, pus).statusCode());
    assertEquals(200, ticked(chair, "/ticks", tick(4, 30, "done", 0)).statusCode());
    String end = get(chair + "/end").body();
    assertTrue(end.contains("Found: 16 facial distal 9 mm, bleeding."), end);
    assertTrue(end.contains("Found: 16 lingual pus."), end);
    String looked = "revision=" + end.split("name=\"revision\" value=\"")[1].split("\"")[0];
    assertEquals(303, send("POST", chair + "/record", looked, "").statusCode());
    Path course = folder.resolve("courses").resolve(files("courses").get(0));
    CourseLog log = CourseFile.read(course);
    assertEquals(
        List.of(
            new Observation.Depth(Tooth.ofIso(16), Aspect.FACIAL, 0, 9, true),
            new Observation.Pus(Tooth.ofIso(16), Aspect.LINGUAL)),
        log.recorded().get(0).done().findings());
  }

  @Test
  void ticksOfAnOlderPlanAreKeptAndNotRecorded() throws Exception {
    Files.copy(Path.of("../demo-data/mild-one-visit.json"), folder.resolve("charts/mild.json"));
    String mouth = "/mouth/" + get("/mouths").body().split("/mouth/")[1].split("/")[0];
    String accept = mouth + "/course/1/accept?effort=quick";
    String seen = field(get(mouth + "/course/1?effort=quick").body(), "seen");
    String log = field(send("POST", accept, "", seen).body(), "log");
    String chair = log.replace("/log/", "/chair/") + "/1";
    assertEquals(422, send("POST", chair + "/begin", "clinician=a%01b", "").statusCode());
    assertEquals(303, send("POST", chair + "/begin", "clinician=Ines", "").statusCode());
    Path file = folder.resolve("chair").resolve(files("chair").get(0));
    String text = Files.readString(file);
    String plan = field(text, "plan");
    // As one begins by another plan: without ticks it gives way, with some it is kept and told.
    String old = text.replace(plan, "0".repeat(64));
    Files.writeString(file, old);
    assertTrue(get(chair).body().contains("Who works"));
    assertEquals(303, send("POST", chair + "/begin", "clinician=Ines", "").statusCode());
    assertEquals(text, Files.readString(file));
    String note = tick(1, 0, "note", -1).replace("}", ", \"text\": \"seen\"}");
    assertEquals(
        200, send("POST", chair + "/ticks", "{\"ticks\": [" + note + "]}", "").statusCode());
    String ticked = Files.readString(file).replace(plan, "0".repeat(64));
    Files.writeString(file, ticked);
    for (String part : List.of("", "/end")) {
      HttpResponse<String> told = get(chair + part);
      assertEquals(409, told.statusCode());
      assertTrue(told.body().contains("planned again"), told.body());
    }
    assertEquals(409, send("POST", chair + "/record", "revision=x", "").statusCode());
    assertEquals(ticked, Files.readString(file));
  }

  private static String tick(int number, int minute, String what, int of) {
    return "{\"number\": "
        + number
        + ", \"at\": \""
        + Instant.parse("2026-03-02T08:00:00.250Z").plusSeconds(60L * minute)
        + "\", \"do\": \""
        + what
        + "\""
        + (of < 0 ? "" : ", \"of\": " + of)
        + "}";
  }

  // ---- from another program

  @Test
  void anotherProgramsTableIsTakenOverOnceItsColumnsWereLookedAt() throws Exception {
    String table =
        "Case,Tooth,Aspect,Depth distal,Depth middle,Depth mesial,Deposit,By\n"
            + "<script>x</script>,46,facial,3,4,3,HV,y\n<script>x</script>,46,lingual,3,4,5,,\n";
    String text = "text=" + URLEncoder.encode(table, UTF_8);
    assertEquals(200, get("/import").statusCode());
    assertEquals(422, send("POST", "/import", "text=", "").statusCode());
    HttpResponse<String> asked = send("POST", "/import", text, "");
    assertEquals(200, asked.statusCode());
    assertTrue(asked.body().contains("<option selected>depth distal</option>"), asked.body());
    assertHarmless(asked.body());
    String answers = "&numbering=iso3950&word-0=facial&word-1=lingual&word-2=heavy&confirmed=yes";
    HttpResponse<String> open = send("POST", "/import", text + "&revision=nothing" + answers, "");
    assertEquals(422, open.statusCode());
    assertTrue(open.body().contains("Column “By”: say what it means"), open.body());
    assertFalse(Files.exists(folder.resolve("mapping.json")));
    String whole = text + answers + "&column-7=ignore&revision=";
    assertEquals(412, send("POST", "/import", whole + "other", "").statusCode());
    HttpResponse<String> taken = send("POST", "/import", whole + "nothing", "");
    assertEquals(200, taken.statusCode());
    assertTrue(taken.body().contains("Nothing says bleeding"), taken.body());
    assertTrue(Files.readString(folder.resolve("mapping.json")).contains("\"HV\": \"heavy\""));
    String mouth = "/mouth/" + taken.body().split("/mouth/")[1].split("\"")[0];
    String draft = get(mouth).body();
    assertTrue(draft.contains("46 heavy | 3 4 3 | 3 4 5"), draft);
    assertHarmless(draft);
    // Known by now, and so taken over at once.
    assertTrue(send("POST", "/import", text, "").body().contains("Taken over as a draft"));
    // By the same columns, but its teeth are 1 to 32, or do not tell: a person is asked, and the
    // wrong answer is refused.
    for (String tooth : List.of("3", "28")) {
      String other = "text=" + URLEncoder.encode(table.replace("46", tooth), UTF_8);
      HttpResponse<String> again = send("POST", "/import", other, "");
      assertTrue(again.body().contains("Teeth are numbered"), again.body());
      assertEquals(
          tooth.equals("3"), again.body().contains("value=\"universal\" selected"), again.body());
      assertFalse(again.body().contains("value=\"iso3950\" selected"), again.body());
    }
    String now = send("POST", "/import", text.replace("46", "3"), "").body();
    String by = "&revision=" + now.split("name=\"revision\" value=\"")[1].split("\"")[0];
    HttpResponse<String> wrong =
        send("POST", "/import", text.replace("46", "3") + answers + "&column-7=ignore" + by, "");
    assertEquals(422, wrong.statusCode());
    assertTrue(wrong.body().contains("a tooth of another numbering"), wrong.body());
    StringBuilder header = new StringBuilder("Tooth");
    for (int i = 0; i < 1001; i++) {
      header.append(",c").append(i);
    }
    String many = "text=" + header + "%0A" + "46" + ",".repeat(1001);
    HttpResponse<String> tooMany = send("POST", "/import", many, "");
    assertEquals(422, tooMany.statusCode());
    assertTrue(tooMany.body().contains("at most 1000"), tooMany.body());
    try {
      assertEquals(413, send("POST", "/import", "text=" + "x".repeat(5 << 20), "").statusCode());
    } catch (IOException refused) {
      // The connection was ended while more was being sent.
    }
    assertEquals(200, get("/import").statusCode());
  }

  // ---- its course, and the practice

  @Test
  void aCourseIsShownPrintedAndAccepted() throws Exception {
    Files.copy(Path.of("../demo-data/mild-one-visit.json"), folder.resolve("charts/mild.json"));
    String mouth = "/mouth/" + get("/mouths").body().split("/mouth/")[1].split("/")[0];
    assertEquals(200, get(mouth + "/course").statusCode());
    HttpResponse<String> card = get(mouth + "/course/1?effort=quick");
    assertTrue(card.body().contains("\"found\": true"), card.body());
    assertTrue(get(mouth + "/course/1/ring?effort=quick").body().startsWith("<svg"));
    assertTrue(get(mouth + "/course/1/print?effort=quick").body().contains("Course at a glance"));
    assertEquals(422, get(mouth + "/course/1?longest=1").statusCode());
    assertEquals(404, get(mouth + "/course/7").statusCode());
    String accept = mouth + "/course/1/accept?effort=quick";
    String seen = field(card.body(), "seen");
    assertEquals(412, send("POST", accept, "", "").statusCode());
    assertEquals(412, send("POST", accept.replace("quick", "normal"), "", seen).statusCode());
    assertEquals(List.of(), files("courses"));
    HttpResponse<String> accepted = send("POST", accept, "", seen);
    assertEquals(200, accepted.statusCode(), accepted.body());
    assertEquals(List.of("DEMO-mild-one-visit.ndjson"), files("courses"));
    CourseLog log = CourseFile.read(folder.resolve("courses/DEMO-mild-one-visit.ndjson"));
    assertEquals(List.of(), LoggedPlan.of(log).audit());
    assertEquals(
        get(mouth + "/course/1/print?effort=quick").body(),
        get(field(accepted.body(), "log") + "/print").body());
    assertEquals(409, send("POST", accept, "", seen).statusCode());
  }

  @Test
  void aCourseIsAcceptedWithThePracticeThatItWasPlannedBy() throws Exception {
    Path chart = folder.resolve("charts/mild.json");
    Files.copy(Path.of("../demo-data/mild-one-visit.json"), chart);
    String course =
        "/mouth/" + get("/mouths").body().split("/mouth/")[1].split("/")[0] + "/course/2";
    String query = "?effort=quick&longest=60&certainty=90";
    String seen = field(get(course + query).body(), "seen");
    Files.writeString(
        chart, Files.readString(chart).replaceFirst("\"ageYears\": \\d+", "\"ageYears\": 31"));
    assertEquals(412, send("POST", course + "/accept" + query, "", seen).statusCode());
    String again = field(get(course + query).body(), "seen");
    HttpResponse<String> accepted = send("POST", course + "/accept" + query, "", again);
    assertEquals(200, accepted.statusCode(), accepted.body());
    CourseLog log = CourseFile.read(folder.resolve("courses").resolve(files("courses").get(0)));
    assertEquals(60, log.practice().appointments().longestVisitMinutes().asInt());
    assertEquals(0.9, log.practice().appointments().certainty().value());
    assertEquals(2, log.planned().course().visits().size());
    assertEquals(List.of(), LoggedPlan.of(log).audit());
  }

  @Test
  void anAreaIsMovedOnceItsPriceOrTheRulesAgainstItWereShown() throws Exception {
    Files.copy(Path.of("../demo-data/mild-one-visit.json"), folder.resolve("charts/mild.json"));
    String course = "/mouth/" + get("/mouths").body().split("/mouth/")[1].split("/")[0] + "/course";
    String quick = "?effort=quick&longest=60";
    String before = get(course + "/2" + quick).body();
    Matcher chip =
        Pattern.compile("data-visit=.\"2.\".*?data-area=.\"([A-Z]{2} [a-z]+).\"", Pattern.DOTALL)
            .matcher(before);
    assertTrue(chip.find(), before);
    String area = URLEncoder.encode(chip.group(1), UTF_8);
    String tried = get(course + "/2/try" + quick + "&visit=1&area=" + area).body();
    assertTrue(tried.contains("\"possible\": true"), tried);
    assertTrue(tried.contains(chip.group(1) + " to visit 1"), tried);
    String wishes = field(tried, "wishes");
    assertEquals("must " + chip.group(1) + " in visit 1 of 2", wishes);
    assertEquals(before, get(course + "/2" + quick).body());
    String asked = quick + "&wishes=" + URLEncoder.encode(wishes, UTF_8);
    String after = get(course + "/2" + asked).body();
    assertNotEquals(field(before, "seen"), field(after, "seen"));
    assertEquals(get(course + "/3" + quick).body(), get(course + "/3" + asked).body());
    assertTrue(get(course + asked).body().contains("data-wish=\"" + wishes + "\""));
    assertTrue(get(course + "/compare/print" + asked).body().contains(": kept at 2 visits"));
    HttpResponse<String> accepted =
        send("POST", course + "/2/accept" + asked, "", field(after, "seen"));
    assertEquals(200, accepted.statusCode(), accepted.body());
    CourseLog log = CourseFile.read(folder.resolve("courses").resolve(files("courses").get(0)));
    assertEquals(WishOutcome.State.KEPT, log.planned().course().wishes().get(0).state());
    assertEquals(List.of(), LoggedPlan.of(log).audit());
  }

  @Test
  void anAreaThatCannotBeMovedSaysWhichRuleStandsAgainstIt() throws Exception {
    Files.copy(Path.of("../demo-data/typical.json"), folder.resolve("charts/typical.json"));
    String course = "/mouth/" + get("/mouths").body().split("/mouth/")[1].split("/")[0] + "/course";
    String right =
        "&wishes=" + URLEncoder.encode("must UR posterior in visit 1 of 3", UTF_8) + "&visit=1";
    String tried = get(course + "/3/try?effort=quick&area=UL+posterior" + right).body();
    assertTrue(tried.contains("\"possible\": false"), tried);
    assertTrue(tried.contains("Against it stands that one visit numbs one side only."), tried);
    assertEquals(404, get(course + "/3/try?visit=4&area=UR+posterior").statusCode());
    assertEquals(404, get(course + "/3/try?visit=1&area=nowhere").statusCode());
    for (String wishes :
        List.of(
            "rather UR posterior in visit 1 of 2", "must numb first", "must UR in visit 2 of 1")) {
      String query = "?wishes=" + URLEncoder.encode(wishes, UTF_8);
      assertEquals(422, get(course + query).statusCode(), wishes);
    }
  }

  @Test
  void whereThereIsNoCourseItIsSaidWhatWouldHelp() throws Exception {
    Files.copy(Path.of("../demo-data/mild-one-visit.json"), folder.resolve("charts/mild.json"));
    String course = "/mouth/" + get("/mouths").body().split("/mouth/")[1].split("/")[0] + "/course";
    HttpResponse<String> none = get(course + "/1?effort=quick&longest=30");
    assertTrue(none.body().contains("\"found\": false"), none.body());
    assertTrue(none.body().contains("What would help?"), none.body());
    String help = get(course + "/1/help?effort=quick&longest=30").body();
    assertTrue(help.contains("instead of 30") || help.contains("visits"), help);
    assertFalse(help.contains("No single change"), help);
    String page = get(course + "/compare/print?effort=quick&longest=40").body();
    assertTrue(page.contains("Visits compared") && page.contains("visits of at most 40 min"), page);
  }

  @Test
  void thePracticeIsShownWithItsSources() throws Exception {
    Files.writeString(
        folder.resolve("practice.json"),
        "{\"schema\": \"quadrille/practice/1\", \"minutes\": {\"finishingSeconds\": 33}}");
    String page = get("/practice").body();
    assertTrue(page.contains("finishing seconds") && page.contains("1 of your own"), page);
    assertEquals(3, page.split("your own").length, page);
  }

  private static String hidden(HttpResponse<String> page, String name) {
    return page.body().split("name=\"" + name + "\" value=\"")[1].split("\"")[0];
  }

  @Test
  void aSettingIsTriedOnAMouthBeforeItIsKept() throws Exception {
    Files.copy(Path.of("../demo-data/mild-one-visit.json"), folder.resolve("charts/mild.json"));
    String setting = "/practice/setting?setting=%2Fappointments%2FlongestVisitMinutes";
    HttpResponse<String> form = get(setting);
    String mouth = form.body().split("<option value=\"")[2].split("\"")[0];
    String typed =
        "setting=%2Fappointments%2FlongestVisitMinutes&source=our+chairs&by=Ines&mouth="
            + mouth
            + "&revision="
            + hidden(form, "revision")
            + "&value=";
    HttpResponse<String> tried = send("POST", "/practice/try", typed + "40", "");
    assertEquals(200, tried.statusCode(), tried.body());
    assertTrue(tried.body().contains("90 becomes 40."), tried.body());
    assertTrue(tried.body().contains("With the change"), tried.body());
    assertFalse(tried.body().contains("stays as it is"), tried.body());
    assertFalse(Files.exists(folder.resolve("practice.json")));
    for (String wrong : List.of("forty", "9000", "1%2C5", "")) {
      HttpResponse<String> refused = send("POST", "/practice/keep", typed + wrong, "");
      assertEquals(422, refused.statusCode(), wrong);
    }
    assertEquals(
        422,
        send("POST", "/practice/keep", typed.replace("by=Ines", "by=+") + "40", "").statusCode());
    assertFalse(Files.exists(folder.resolve("practice.json")));
    assertEquals(303, send("POST", "/practice/keep", typed + "40", "").statusCode());
    String page = get("/practice?kept=%2Fappointments%2FlongestVisitMinutes").body();
    assertTrue(page.contains("Kept: <bdi>appointments · longest visit minutes</bdi>"), page);
    assertTrue(page.contains("our chairs") && page.contains("Ines, 2\u00a0Mar\u00a02026"), page);
    assertTrue(get(setting).body().contains("90 → 40"));
  }

  @Test
  void aStalePracticeIsRefusedAndBothAreShown() throws Exception {
    Path file = folder.resolve("practice.json");
    HttpResponse<String> form = get("/practice/setting?setting=%2Fminutes%2FfinishingSeconds");
    String theirs =
        "{\"schema\": \"quadrille/practice/1\", \"minutes\": {\"finishingSeconds\": 33}}";
    Files.writeString(file, theirs);
    String typed =
        "setting=%2Fminutes%2FfinishingSeconds&by=Ines&value=44&revision="
            + hidden(form, "revision");
    for (String way : List.of("try", "keep")) {
      HttpResponse<String> stale = send("POST", "/practice/" + way, typed, "");
      assertEquals(412, stale.statusCode());
      assertTrue(
          stale.body().contains("Somebody else has changed the practice file"), stale.body());
      assertTrue(
          stale.body().contains("33") && stale.body().contains("value=\"44\""), stale.body());
    }
    assertEquals(theirs, Files.readString(file));
  }

  @Test
  void aSettingThatIsNoneLeadsNowhere() throws Exception {
    for (String setting : List.of("", "%2Fnothing", "%2F..%2Fcharts", "%3Cscript%3E")) {
      assertEquals(404, get("/practice/setting?setting=" + setting).statusCode(), setting);
      assertEquals(404, send("POST", "/practice/keep", "setting=" + setting, "").statusCode());
    }
    assertEquals(200, get("/practice?kept=%3Cscript%3E").statusCode());
    assertFalse(get("/practice?kept=%3Cscript%3E").body().contains("<script>"));
  }
}
