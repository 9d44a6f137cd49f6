using System.Reflection;

namespace BosFlow.Architecture.Tests;

/// <summary>No wall clock, no unseeded random, no console outside the command line; no files in the arithmetic.</summary>
public sealed class ForbiddenCallTests
{
    private static readonly string[] OutsideCli = [ProductAssemblies.Numerics, ProductAssemblies.Domain, ProductAssemblies.Media, ProductAssemblies.Results];

    public static TheoryData<string> Libraries => [.. OutsideCli];

    public static TheoryData<string> PureLibraries => [ProductAssemblies.Numerics, ProductAssemblies.Domain];

    [Theory]
    [MemberData(nameof(Libraries))]
    public void Library_Calls_NoWallClockNoUnseededRandomNoConsole(string assembly) =>
        SourceTree.AssertNone(Calls(assembly).Where(call => IsHidden(call.Member)).Select(call => Describe(call.Type, call.Member)));

    [Theory]
    [MemberData(nameof(PureLibraries))]
    public void PureLibrary_Calls_NoFilesNoProcessesNoEnvironment(string assembly)
    {
        Type[] outside =
        [
            typeof(File), typeof(Directory), typeof(FileInfo), typeof(DirectoryInfo), typeof(FileStream),
            typeof(System.Diagnostics.Process), typeof(System.Runtime.InteropServices.NativeLibrary),
        ];

        SourceTree.AssertNone(Calls(assembly).Where(call => outside.Contains(call.Member.DeclaringType)).Select(call => Describe(call.Type, call.Member)));
    }

    [Fact]
    public void IsHidden_KnownOffenders_AreFound()
    {
        Assert.True(IsHidden(typeof(DateTime).GetProperty(nameof(DateTime.Now))!.GetMethod!));
        Assert.True(IsHidden(typeof(Random).GetProperty(nameof(Random.Shared))!.GetMethod!));
        Assert.True(IsHidden(typeof(Random).GetConstructor([])!));
        Assert.True(IsHidden(typeof(Console).GetMethod(nameof(Console.WriteLine), [])!));
        Assert.False(IsHidden(typeof(Random).GetConstructor([typeof(int)])!));
    }

    private static IEnumerable<(Type Type, MemberInfo Member)> Calls(string assembly) =>
        from type in ProductAssemblies.TypesOf(assembly)
        from member in MemberUses.MembersUsedBy(type)
        select (type, member);

    private static bool IsHidden(MemberInfo member) =>
        member.DeclaringType == typeof(Console) ||
        (member.DeclaringType == typeof(Random) && (member.Name == "get_Shared" || member is ConstructorInfo { IsStatic: false } made && made.GetParameters().Length == 0)) ||
        ((member.DeclaringType == typeof(DateTime) || member.DeclaringType == typeof(DateTimeOffset)) &&
            member.Name is "get_Now" or "get_UtcNow" or "get_Today") ||
        (member.DeclaringType == typeof(TimeProvider) && member.Name == "get_System");

    private static string Describe(Type type, MemberInfo member) => $"{type.FullName} uses {member.DeclaringType}.{member.Name}";
}
