package quadrille.cli;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** Reading and writing of files, by the command that does the least between. */
final class DocumentsTest {

  @TempDir private Path folder;

  private final String whole = Run.of("practice").done();

  private Path file(String name) {
    return folder.resolve(name);
  }

  private String path(String name) {
    return file(name).toString();
  }

  private long filesInFolder() throws IOException {
    try (Stream<Path> files = Files.list(folder)) {
      return files.count();
    }
  }

  @Test
  void writesAFileAndNothingToStandardOutput() throws IOException {
    assertEquals("", Run.of("practice", "-o", path("p.json")).done());
    assertEquals(whole, Files.readString(file("p.json")));
    assertEquals(1, filesInFolder());
  }

  @Test
  void hyphenIsStandardOutput() {
    assertEquals(whole, Run.of("practice", "-o", "-").done());
  }

  @Test
  void existingFileStaysUnlessForced() throws IOException {
    Files.writeString(file("p.json"), "mine");
    Run refused = Run.of("practice", "-o", path("p.json"));
    assertEquals(path("p.json") + ": exists already; --force overwrites it.\n", refused.err());
    assertEquals(Status.USAGE, refused.status());
    assertEquals("mine", Files.readString(file("p.json")));
    assertEquals("", Run.of("practice", "-o", path("p.json"), "--force").done());
    assertEquals(whole, Files.readString(file("p.json")));
    assertEquals(1, filesInFolder());
  }

  @Test
  void whatIsReadIsNeverOverwritten() throws IOException {
    String changes = "{\"schema\": \"quadrille/practice/1\", \"name\": \"ours\"}";
    Files.writeString(file("p.json"), changes);
    Run run = Run.of("practice", "--practice", path("p.json"), "-o", path("./p.json"), "--force");
    assertEquals(Status.USAGE, run.status());
    assertTrue(run.err().contains("is read by this command"), run.err());
    assertEquals(changes, Files.readString(file("p.json")));
  }

  @Test
  void symbolicLinkStaysALink() throws IOException {
    Files.writeString(file("real.json"), "old");
    Files.createSymbolicLink(file("link.json"), file("real.json"));
    Run.of("practice", "-o", path("link.json"), "--force").done();
    assertTrue(Files.isSymbolicLink(file("link.json")));
    assertEquals(whole, Files.readString(file("real.json")));
  }

  @Test
  void folderAndDeviceAreNoOutput() throws IOException {
    Files.createDirectory(file("sub"));
    for (String name : new String[] {path("sub"), "/dev/null"}) {
      Run run = Run.of("practice", "-o", name, "--force");
      assertEquals(
          name + ": is not a regular file; for standard output write - instead.\n", run.err());
      assertEquals(Status.USAGE, run.status());
    }
  }

  @Test
  void missingFolderIsSaid() {
    String name = path("none/p.json");
    Run run = Run.of("practice", "-o", name);
    assertEquals(name + ": cannot be written: there is no such folder.\n", run.err());
    assertEquals(Status.FILE, run.status());
  }

  @Test
  void missingFileIsSaid() {
    String name = path("none.json");
    Run run = Run.of("check", name);
    assertEquals(name + ": cannot be read: there is no such file.\n", run.err());
    assertEquals(Status.FILE, run.status());
  }

  @Test
  void folderIsNoChart() {
    Run run = Run.of("check", folder.toString());
    assertEquals(folder + ": cannot be read: it is a folder.\n", run.err());
    assertEquals(Status.FILE, run.status());
  }

  @Test
  void unreadableFileIsSaid() throws IOException {
    Files.writeString(file("c.json"), "{}");
    assumeTrue(file("c.json").toFile().setReadable(false));
    assumeTrue(!Files.isReadable(file("c.json")), "root reads everything");
    Run run = Run.of("check", path("c.json"));
    assertEquals(path("c.json") + ": cannot be read: access is denied.\n", run.err());
    assertEquals(Status.FILE, run.status());
  }

  @Test
  void fileNameWithAnAtSignIsAFileName() throws IOException {
    Run run = Run.of("check", "@" + path("args"));
    assertEquals(Status.FILE, run.status());
    assertTrue(run.err().startsWith("@" + path("args") + ": cannot be read"), run.err());
  }

  @Test
  void standardInputIsReadOnce() {
    Run run = Run.withInput("{}", "check", "-", "--practice", "-");
    assertEquals(Status.USAGE, run.status());
    assertEquals("Only one file can be read from standard input (-).\n", run.err());
  }
}
