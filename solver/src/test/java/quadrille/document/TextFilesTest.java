package quadrille.document;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.io.IOException;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.List;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

final class TextFilesTest {

  @TempDir Path folder;

  private List<String> names() throws IOException {
    try (Stream<Path> files = Files.list(folder)) {
      return files.map(file -> file.getFileName().toString()).sorted().toList();
    }
  }

  @Test
  void writesANewFileAndNothingElse() throws Exception {
    TextFiles.write(folder.resolve("plan.json"), "Zähne\n", false);
    assertEquals("Zähne\n", TextFiles.read(folder.resolve("plan.json")));
    assertEquals(List.of("plan.json"), names());
  }

  @Test
  void keepsAnExistingFileUnlessToldOtherwise() throws Exception {
    Path file = folder.resolve("plan.json");
    Files.writeString(file, "old");
    Files.setPosixFilePermissions(file, PosixFilePermissions.fromString("rw-r-----"));
    assertThrows(FileAlreadyExistsException.class, () -> TextFiles.write(file, "new", false));
    assertEquals("old", Files.readString(file));
    TextFiles.write(file, "new", true);
    assertEquals("new", Files.readString(file));
    assertEquals("rw-r-----", PosixFilePermissions.toString(Files.getPosixFilePermissions(file)));
    assertEquals(List.of("plan.json"), names());
  }

  @Test
  void textThatCannotBeWrittenLeavesTheOldFile() throws Exception {
    Path file = folder.resolve("plan.json");
    Files.writeString(file, "old");
    assertThrows(
        CharacterCodingException.class, () -> TextFiles.write(file, "half a pair: \ud800", true));
    assertEquals("old", Files.readString(file));
    assertEquals(List.of("plan.json"), names());
  }

  @Test
  void writesThroughASymbolicLink() throws Exception {
    Path file = folder.resolve("plan.json");
    Files.writeString(file, "old");
    Path link = Files.createSymbolicLink(folder.resolve("link.json"), file);
    TextFiles.write(link, "new", true);
    assertEquals("new", Files.readString(file));
    assertEquals(List.of("link.json", "plan.json"), names());
  }

  @Test
  void refusesAFolderAndAMissingFolder() {
    assertThrows(IOException.class, () -> TextFiles.write(folder, "text", true));
    assertThrows(
        NoSuchFileException.class,
        () -> TextFiles.write(folder.resolve("none/plan.json"), "text", true));
  }

  @Test
  void namesTheLineThatIsNotUtf8() {
    byte[] bytes = "first\nZ\u00e4hne\n".getBytes(StandardCharsets.ISO_8859_1);
    InvalidDocumentException invalid =
        assertThrows(InvalidDocumentException.class, () -> TextFiles.decode("chart.csv", bytes));
    assertEquals(
        "chart.csv:2: found a byte that is not UTF-8 (0xE4);"
            + " allowed: text in UTF-8; save or export the file as UTF-8",
        invalid.getMessage());
  }
}
