using BrassVox.Practice.Profiles;
using Xunit;

namespace BrassVox.Tests.Practice;

/// <summary>Who does all that an exercise asks is as asked, whoever it is. No outside source: the truth is what the player was told to do.</summary>
public sealed class PerfectPlayersTests
{
    [Theory]
    [MemberData(nameof(TakeJudgeTests.PlayAlong), MemberType = typeof(TakeJudgeTests))]
    public void A_perfect_player_is_as_asked_at_the_narrowest_grade_on_every_instrument_and_voice(string id)
    {
        foreach (PlayerProfile player in ShippedExercises.Players())
        {
            TakeJudgeTests.AssertAsAsked(id, player);
        }
    }
}
