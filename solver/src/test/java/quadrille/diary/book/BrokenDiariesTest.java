package quadrille.diary.book;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;
import quadrille.document.BrokenTexts;
import quadrille.document.InvalidDocumentException;

final class BrokenDiariesTest {

  static List<BrokenTexts.Case> cases() {
    return BrokenTexts.in(BrokenDiariesTest.class, "broken-diaries.txt");
  }

  @ParameterizedTest
  @MethodSource("cases")
  void isRefusedWithTheseWords(BrokenTexts.Case broken) {
    InvalidDocumentException invalid =
        assertThrows(
            InvalidDocumentException.class, () -> DiaryReader.read(broken.source(), broken.text()));
    assertEquals(String.join("\n", broken.faults()), invalid.getMessage(), () -> broken.text());
  }

  @Test
  void theTableIsReadInFull() {
    assertTrue(cases().size() >= 40, () -> cases().size() + " cases");
    assertEquals(cases().size(), cases().stream().map(BrokenTexts.Case::title).distinct().count());
  }
}
