package quadrille.document;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.io.InputStream;
import java.io.RandomAccessFile;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.FileSystemException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import quadrille.document.FileSteps.Step;

final class FileStoreTest {

  @TempDir private Path folder;

  private Path file(String name) {
    return folder.resolve(name);
  }

  private List<String> names() throws IOException {
    try (Stream<Path> files = Files.list(folder)) {
      return files.map(file -> file.getFileName().toString()).sorted().toList();
    }
  }

  private static String mode(Path file) throws IOException {
    return PosixFilePermissions.toString(Files.getPosixFilePermissions(file));
  }

  // ---- nobody else's to read

  @Test
  void aNewFileIsItsOwnersAloneUnlessSetOtherwise() throws Exception {
    FileStore.USUAL.write(file("a.json"), "text", Expected.NOTHING);
    assertEquals("rw-------", mode(file("a.json")));
    FileStore shared = new FileStore(FileRules.of(Map.of(FileRules.FILE_MODE, "640")));
    shared.write(file("b.json"), "text", Expected.NOTHING);
    assertEquals("rw-r-----", mode(file("b.json")));
    shared.write(file("a.json"), "new", Expected.ANYTHING);
    assertEquals("rw-------", mode(file("a.json")), "a file that is replaced keeps its mode");
  }

  @Test
  void aPartIsNeverMoreReadableThanItsTarget() throws Exception {
    Files.writeString(file("diary.json"), "old");
    Files.setPosixFilePermissions(file("diary.json"), PosixFilePermissions.fromString("rw-r-----"));
    List<String> seen = new ArrayList<>();
    FileSteps watching =
        (step, path) -> {
          for (String name : names()) {
            if (name.endsWith(".part")) {
              seen.add(step + " " + mode(file(name)));
            }
          }
        };
    FileStore store = new FileStore(FileRules.USUAL, watching);
    store.write(file("diary.json"), "new", Expected.ANYTHING);
    assertEquals(
        List.of(
            "WRITE rw-------",
            "SYNC rw-------",
            "CREATE rw-------",
            "MODE rw-------",
            "RENAME rw-r-----"),
        seen);
    assertEquals("rw-r-----", mode(file("diary.json")));
  }

  @Test
  void whatIsSetIsRead() {
    assertEquals(FileRules.USUAL, FileRules.of(Map.of()));
    FileRules rules =
        FileRules.of(
            Map.of(
                FileRules.MOST_MEGABYTES, "2",
                FileRules.FILE_MODE, "660",
                FileRules.CALENDARS, "anywhere"));
    assertEquals(new FileRules(2 << 20, PosixFilePermissions.fromString("rw-rw----"), true), rules);
    for (Map.Entry<String, String> wrong :
        List.of(
            Map.entry(FileRules.MOST_MEGABYTES, "0"),
            Map.entry(FileRules.MOST_MEGABYTES, "1025"),
            Map.entry(FileRules.MOST_MEGABYTES, "32 MB"),
            Map.entry(FileRules.FILE_MODE, "rw"),
            Map.entry(FileRules.FILE_MODE, "000"),
            Map.entry(FileRules.CALENDARS, ""))) {
      String said =
          assertThrows(
                  IllegalArgumentException.class,
                  () -> FileRules.of(Map.of(wrong.getKey(), wrong.getValue())))
              .getMessage();
      assertTrue(said.startsWith(wrong.getKey() + ": is \"" + wrong.getValue() + "\""), said);
    }
  }

  // ---- nothing that was not seen is written over

  @Test
  void aFileThatAppearsMeanwhileIsNotWrittenOver() throws Exception {
    FileSteps racing =
        (step, path) -> {
          if (step == Step.LINK) {
            Files.writeString(file("plan.json"), "theirs");
          }
        };
    FileStore store = new FileStore(FileRules.USUAL, racing);
    assertThrows(
        FileAlreadyExistsException.class,
        () -> store.write(file("plan.json"), "ours", Expected.NOTHING));
    assertEquals("theirs", Files.readString(file("plan.json")));
    assertEquals(List.of("plan.json"), names());
  }

  @Test
  void aFileThatHasChangedSinceItWasReadIsLeftAlone() throws Exception {
    Path file = file("practice.json");
    Files.writeString(file, "read");
    Expected read = Expected.of(file);
    assertEquals(Expected.bytes("read".getBytes(UTF_8)), read);
    Files.writeString(file, "theirs");
    ChangedFileException changed =
        assertThrows(ChangedFileException.class, () -> FileStore.USUAL.write(file, "ours", read));
    assertEquals(
        "it has been changed since it was read; there is now another (SHA-256 "
            + Expected.bytes("theirs".getBytes(UTF_8)).revision()
            + ")",
        changed.getReason());
    assertEquals("theirs", Files.readString(file));
    Files.delete(file);
    assertEquals(
        "it has been changed since it was read; there is now no such file",
        assertThrows(ChangedFileException.class, () -> FileStore.USUAL.write(file, "ours", read))
            .getReason());
    assertEquals(List.of(), names());
    FileStore.USUAL.write(file, "ours", Expected.of(file));
    FileStore.USUAL.write(file, "ours again", Expected.of(file));
    assertEquals("ours again", Files.readString(file));
    assertEquals(List.of("practice.json"), names());
  }

  @Test
  void ofThreadsThatReplaceTheSameTextOneDoes() throws Exception {
    Path file = file("practice.json");
    Files.writeString(file, "0");
    List<Thread> threads = new ArrayList<>();
    List<String> failed = new ArrayList<>();
    for (int t = 0; t < 4; t++) {
      threads.add(new Thread(() -> countUp(file, 25, failed)));
    }
    for (Thread thread : threads) {
      thread.start();
    }
    for (Thread thread : threads) {
      thread.join();
    }
    assertEquals(List.of(), failed);
    assertEquals("100", Files.readString(file), "no count is lost");
    assertEquals(List.of("practice.json"), names());
  }

  private static void countUp(Path file, int times, List<String> failed) {
    for (int done = 0; done < times; ) {
      try {
        byte[] read = FileStore.USUAL.bytes(file);
        int next = Integer.parseInt(new String(read, UTF_8)) + 1;
        FileStore.USUAL.write(file, Integer.toString(next), Expected.bytes(read));
        done++;
      } catch (ChangedFileException told) {
        Thread.onSpinWait();
      } catch (IOException | RuntimeException wrong) {
        synchronized (failed) {
          failed.add(wrong.toString());
        }
        return;
      }
    }
  }

  // ---- strays

  /** Begins to write a file, says so, and waits to be ended. */
  public static final class Beginner {
    private Beginner() {}

    public static void main(String[] args) throws Exception {
      try (PreparedFile part =
          FileStore.USUAL.prepare(Path.of(args[0]), "begun", Expected.NOTHING)) {
        System.out.println("begun");
        System.in.read();
        part.commit();
      }
    }
  }

  private Process beginner(Path file) throws IOException {
    Process process =
        new ProcessBuilder(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-XX:TieredStopAtLevel=1",
                "-XX:+UseSerialGC",
                "-cp",
                Path.of(
                        FileStoreTest.class
                            .getProtectionDomain()
                            .getCodeSource()
                            .getLocation()
                            .getPath())
                    + java.io.File.pathSeparator
                    + Path.of(
                        FileStore.class
                            .getProtectionDomain()
                            .getCodeSource()
                            .getLocation()
                            .getPath()),
                Beginner.class.getName(),
                file.toString())
            .redirectError(ProcessBuilder.Redirect.INHERIT)
            .start();
    assertEquals("begun", process.inputReader(UTF_8).readLine());
    return process;
  }

  private long parts() throws IOException {
    return names().stream().filter(name -> name.endsWith(".part")).count();
  }

  @Test
  @Timeout(value = 60, unit = TimeUnit.SECONDS)
  void anothersPartStaysWhileItIsWrittenAndGoesWithItsWriter() throws Exception {
    Process living = beginner(file("a.json"));
    Process killed = beginner(file("b.json"));
    assertEquals(2, parts());
    killed.destroyForcibly().waitFor();
    FileStore.USUAL.write(file("c.json"), "text", Expected.NOTHING);
    assertEquals(1, parts(), "the killed one's is gone, the living one's is not");
    living.outputWriter(UTF_8).close();
    assertEquals(0, living.waitFor());
    assertEquals("begun", Files.readString(file("a.json")));
    assertEquals(List.of("a.json", "c.json"), names());
  }

  @Test
  void filesThatOnlyLookLikePartsStay() throws Exception {
    List<String> others =
        List.of(".a.json.4711.part", ".b.part", ".b.x.quadrille.part", "b.7.part");
    for (String name : others) {
      Files.writeString(file(name), "not ours");
    }
    Files.createSymbolicLink(file(".c.1.quadrille.part"), file("b.7.part"));
    FileStore.USUAL.write(file("c.json"), "text", Expected.NOTHING);
    for (String name : others) {
      assertTrue(Files.exists(file(name)), name);
    }
  }

  @Test
  void aLongNameIsNoHindrance() throws Exception {
    String name = "ä".repeat(120) + ".json";
    FileStore.USUAL.write(file(name), "text", Expected.NOTHING);
    FileStore.USUAL.write(file(name), "new", Expected.of(file(name)));
    assertEquals(List.of(name), names());
  }

  // ---- looked at before they are read

  private static String refused(FileStore store, Path file) {
    return assertThrows(FileSystemException.class, () -> store.bytes(file)).getReason();
  }

  @Test
  @Timeout(value = 10, unit = TimeUnit.SECONDS)
  void onlyRegularFilesAreRead() throws Exception {
    assertEquals("it is a folder", refused(FileStore.USUAL, folder));
    Process made = new ProcessBuilder("mkfifo", file("pipe").toString()).start();
    assumeTrue(made.waitFor() == 0, "no named pipes here");
    for (Path path : List.of(file("pipe"), Path.of("/dev/zero"), Path.of("/dev/null"))) {
      assertEquals(
          "it is a device, a pipe or a socket, not a file", refused(FileStore.USUAL, path));
      assertThrows(FileSystemException.class, () -> Expected.of(path));
      assertThrows(
          FileSystemException.class, () -> FileStore.USUAL.write(path, "text", Expected.ANYTHING));
      assertThrows(FileSystemException.class, () -> FileStore.USUAL.log(path, true));
    }
  }

  @Test
  void filesTogetherHaveWhatOneFileMayHave() throws Exception {
    FileStore store = new FileStore(new FileRules(1280, FileRules.OWNER, false));
    Files.writeString(file("half"), "x".repeat(639) + "\n");
    FilesTogether together = store.together();
    assertEquals(640, together.bytes(file("half")).length);
    assertEquals(640, together.bytes(file("half")).length);
    assertEquals(
        "with the calendars before it, it has more than the 1280 bytes that are taken;"
            + " QUADRILLE_MOST_MEGABYTES sets that",
        assertThrows(FileSystemException.class, () -> together.bytes(file("half"))).getReason());
    Files.writeString(file("ten"), "a\r\nb\nc\rd,e,f\\,g,h,i,j,k,l");
    assertEquals(25, store.together().bytes(file("ten")).length);
    Files.writeString(file("eleven"), "a\r\nb\nc\rd,e,f\\,g,h,i,j,k,l,");
    assertEquals(
        "with the calendars before it, it has more than the 10 lines and entries of lists that are"
            + " taken; QUADRILLE_MOST_MEGABYTES sets that",
        assertThrows(FileSystemException.class, () -> store.together().bytes(file("eleven")))
            .getReason());
  }

  @Test
  void noMoreIsReadOrWrittenThanIsSet() throws Exception {
    FileStore store = new FileStore(new FileRules(10, FileRules.OWNER, false));
    Files.writeString(file("ten"), "0123456789");
    assertEquals(10, store.bytes(file("ten")).length);
    Files.writeString(file("eleven"), "0123456789x");
    assertEquals(
        "it has 11 bytes, and at most 10 are taken; QUADRILLE_MOST_MEGABYTES sets that",
        refused(store, file("eleven")));
    assertThrows(
        FileSystemException.class,
        () -> store.write(file("more"), "0123456789x", Expected.NOTHING));
    assertFalse(Files.exists(file("more")));
    try (FileLog log = store.log(file("ten"), true)) {
      assertThrows(FileSystemException.class, () -> log.append(10, new byte[] {'x'}));
    }
    assertEquals("0123456789", Files.readString(file("ten")));
    InputStream endless =
        new InputStream() {
          @Override
          public int read() {
            return '0';
          }
        };
    assertEquals(
        "it has more bytes, and at most 10 are taken; QUADRILLE_MOST_MEGABYTES sets that",
        assertThrows(FileSystemException.class, () -> store.bytes("-", endless)).getReason());
  }

  @Test
  @Timeout(value = 5, unit = TimeUnit.SECONDS)
  void aHugeFileIsRefusedUnread() throws Exception {
    try (RandomAccessFile huge = new RandomAccessFile(file("huge.json").toFile(), "rw")) {
      huge.setLength(3L << 30);
    }
    assertEquals(
        "it has 3221225472 bytes, and at most 33554432 are taken;"
            + " QUADRILLE_MOST_MEGABYTES sets that",
        refused(FileStore.USUAL, file("huge.json")));
    assertThrows(FileSystemException.class, () -> Expected.of(file("huge.json")));
    assertThrows(FileSystemException.class, () -> FileStore.USUAL.log(file("huge.json"), false));
  }

  @Test
  void whatADocumentNamesLiesBeneathItsFolder() throws Exception {
    Path own = Files.createDirectories(folder.resolve("practice/calendars"));
    Path diary = folder.resolve("practice/diary.json");
    Files.writeString(diary, "{}");
    Files.writeString(own.resolve("ada.ics"), "");
    Files.writeString(file("secret.ics"), "");
    Files.createSymbolicLink(own.resolve("link.ics"), file("secret.ics"));
    FileStore store = FileStore.USUAL;
    assertEquals(own.toRealPath().resolve("ada.ics"), store.named(diary, "calendars/ada.ics"));
    for (String outside :
        List.of("../secret.ics", file("secret.ics").toString(), "calendars/link.ics")) {
      assertEquals(
          "it lies outside the folder of the file that names it;"
              + " QUADRILLE_CALENDARS=anywhere allows that",
          assertThrows(FileSystemException.class, () -> store.named(diary, outside)).getReason());
      FileStore anywhere = new FileStore(FileRules.of(Map.of(FileRules.CALENDARS, "anywhere")));
      assertEquals(file("secret.ics").toRealPath(), anywhere.named(diary, outside));
    }
  }

  // ---- ended or refused at each step

  /** Ends the process, as far as the disk can tell: from a step on, nothing is done any more. */
  private static final class Ending implements FileSteps {
    private int left;

    Ending(int left) {
      this.left = left;
    }

    @Override
    public void before(Step step, Path path) {
      if (left == 0) {
        throw new Ended();
      }
      left--;
    }
  }

  private static final class Ended extends Error {
    private static final long serialVersionUID = 1L;
  }

  private interface Writing {
    void write(FileStore store) throws IOException;
  }

  /** Several pieces long, so that it can be ended halfway. */
  private static final String NEW = "new text\n".repeat(20_000);

  private void endedAtEachStep(Writing writing, String old) throws Exception {
    boolean done = false;
    int ends = 0;
    for (int steps = 0; !done; steps++) {
      try {
        writing.write(new FileStore(FileRules.USUAL, new Ending(steps)));
        done = true;
      } catch (Ended ended) {
        ends++;
      }
      Path file = file("file");
      String text = Files.exists(file) ? Files.readString(file) : "";
      assertTrue(text.equals(old) || text.equals(NEW), "after " + steps + " steps");
      for (String name : names()) {
        if (name.endsWith(".part")) {
          assertEquals("rw-------", mode(file(name)), name + " after " + steps + " steps");
        } else {
          assertTrue(List.of("file", ".file.lock").contains(name), name);
        }
      }
      FileStore.USUAL.write(file, old + "!", Expected.of(file));
      assertEquals(old + "!", Files.readString(file));
      assertEquals(List.of("file"), names(), "the next writer leaves nothing");
      Files.delete(file);
      if (!old.isEmpty()) {
        FileStore.USUAL.write(file, old, Expected.NOTHING);
      }
    }
    assertTrue(ends >= 7, "only " + ends + " steps");
  }

  @Test
  void endedAtAnyStepANewFileIsWholeOrNotThere() throws Exception {
    endedAtEachStep(store -> store.write(file("file"), NEW, Expected.NOTHING), "");
  }

  @Test
  void endedAtAnyStepAReplacedFileIsOldOrNew() throws Exception {
    FileStore.USUAL.write(file("file"), "old", Expected.NOTHING);
    endedAtEachStep(store -> store.write(file("file"), NEW, Expected.of(file("file"))), "old");
  }

  @Test
  void aDiskThatRefusesLeavesTheOldFileAndNothingElse() throws Exception {
    FileStore.USUAL.write(file("file"), "old", Expected.NOTHING);
    for (Step full : List.of(Step.CREATE, Step.WRITE, Step.SYNC, Step.MODE, Step.RENAME)) {
      FileSteps refusing =
          (step, path) -> {
            if (step == full) {
              throw new IOException("No space left on device");
            }
          };
      Files.setPosixFilePermissions(file("file"), PosixFilePermissions.fromString("rw-r--r--"));
      FileStore store = new FileStore(FileRules.USUAL, refusing);
      assertThrows(
          IOException.class,
          () -> store.write(file("file"), NEW, Expected.ANYTHING),
          full.toString());
      assertEquals("old", Files.readString(file("file")), full.toString());
      assertEquals(List.of("file"), names(), full.toString());
    }
  }

  @Test
  void aLogThatCannotBeAppendedToIsAsItWas() throws Exception {
    Files.writeString(file("log"), "one\n");
    byte[] entry = NEW.getBytes(UTF_8);
    for (int refused = 0; refused < 5; refused++) {
      int[] left = {refused};
      FileSteps refusing =
          (step, path) -> {
            if (left[0]-- == 0) {
              throw new IOException("No space left on device");
            }
          };
      FileStore store = new FileStore(FileRules.USUAL, refusing);
      try (FileLog log = store.log(file("log"), true)) {
        assertThrows(IOException.class, () -> log.append(4, entry));
      }
      assertArrayEquals("one\n".getBytes(UTF_8), Files.readAllBytes(file("log")));
    }
  }
}
