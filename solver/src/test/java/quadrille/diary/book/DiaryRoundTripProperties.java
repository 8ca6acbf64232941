package quadrille.diary.book;

import static org.junit.jupiter.api.Assertions.assertEquals;

import net.jqwik.api.Arbitrary;
import net.jqwik.api.EdgeCasesMode;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.Provide;

final class DiaryRoundTripProperties {

  @Provide
  Arbitrary<Diary> diaries() {
    return DiaryArbitraries.diaries();
  }

  @Property(tries = 300, seed = "20260306", edgeCases = EdgeCasesMode.NONE)
  void whatIsWrittenReadsBackTheSame(@ForAll("diaries") Diary diary) throws Exception {
    String text = DiaryWriter.write(diary);
    Diary back = DiaryReader.read("diary.json", text);
    assertEquals(diary, back);
    assertEquals(text, DiaryWriter.write(back));
  }
}
