using System.Reflection;
using System.Runtime.CompilerServices;

namespace BosFlow.Architecture.Tests;

/// <summary>No shared mutable state: what is static is constant.</summary>
public sealed class SharedStateTests
{
    private const BindingFlags AllStatic = BindingFlags.Static | BindingFlags.Public | BindingFlags.NonPublic | BindingFlags.DeclaredOnly;

    [Theory]
    [MemberData(nameof(ProductAssemblies.AllNames), MemberType = typeof(ProductAssemblies))]
    public void StaticFields_OfAnyKind_AreConstantOrReadOnly(string assembly) =>
        SourceTree.AssertNone(StaticFields(assembly).Where(field => !field.IsInitOnly && !field.IsLiteral).Select(Describe));

    [Theory]
    [MemberData(nameof(ProductAssemblies.AllNames), MemberType = typeof(ProductAssemblies))]
    public void StaticFields_ThatOthersSee_AreNoArrays(string assembly) =>
        SourceTree.AssertNone(StaticFields(assembly).Where(field => !field.IsPrivate && field.FieldType.IsArray).Select(Describe));

    [Theory]
    [MemberData(nameof(ProductAssemblies.AllNames), MemberType = typeof(ProductAssemblies))]
    public void StaticProperties_OfAnyKind_HaveNoSetter(string assembly)
    {
        IEnumerable<PropertyInfo> settable =
            from type in ProductAssemblies.TypesOf(assembly)
            from property in type.GetProperties(AllStatic)
            where property.SetMethod is not null
            select property;

        SourceTree.AssertNone(settable.Select(property => $"{property.DeclaringType}.{property.Name} can be set"));
    }

    private static IEnumerable<FieldInfo> StaticFields(string assembly) =>
        from type in ProductAssemblies.TypesOf(assembly)
        where !IsGenerated(type)
        from field in type.GetFields(AllStatic)
        where !IsGenerated(field)
        select field;

    // The compiler keeps delegates of lambdas in static fields of types of its own.
    private static bool IsGenerated(MemberInfo member) =>
        member.IsDefined(typeof(CompilerGeneratedAttribute), inherit: false) || member.Name.Contains('<', StringComparison.Ordinal) ||
        (member.DeclaringType is Type owner && IsGenerated(owner));

    private static string Describe(FieldInfo field) => $"{field.DeclaringType}.{field.Name} can be changed by everybody";
}
