using System.Reflection;

namespace BosFlow.Architecture.Tests;

/// <summary>The rules rest on this reader: it must see what the examples below hide.</summary>
public sealed class MemberUsesTests
{
    [Fact]
    public void MembersUsedBy_ClockInALambda_IsSeen()
    {
        IEnumerable<MemberInfo> members = typeof(HiddenClock).GetNestedTypes(BindingFlags.NonPublic)
            .Append(typeof(HiddenClock)).SelectMany(MemberUses.MembersUsedBy);

        Assert.Contains(members, member => member.DeclaringType == typeof(DateTime) && member.Name == "get_UtcNow");
    }

    [Fact]
    public void TypesUsedBy_TypeArgumentOfACall_IsSeen() =>
        Assert.Contains(typeof(Uri), MemberUses.TypesUsedBy(typeof(HiddenTypeArgument)));

    [Fact]
    public void TypesUsedBy_MethodWithSwitchAndLongConstants_IsReadToItsEnd() =>
        Assert.Contains(typeof(Version), MemberUses.TypesUsedBy(typeof(LongMethod)));

    private static class HiddenClock
    {
        public static IEnumerable<long> Ticks(IEnumerable<int> offsets) => offsets.Select(offset => DateTime.UtcNow.Ticks + offset);
    }

    private static class HiddenTypeArgument
    {
        public static int Length() => Array.Empty<Uri>().Length;
    }

    private static class LongMethod
    {
        public static string Text(int n)
        {
            double value = n switch { 0 => 1.5, 1 => 2.5, 2 => 1e300, 3 => -1.5, 4 => 8.25, _ => long.MaxValue };
            return value > 2 ? new Version(1, n).ToString() : "";
        }
    }
}
