using System.Reflection;
using System.Reflection.Emit;

namespace BosFlow.Architecture.Tests;

/// <summary>Which types and members a type refers to: in signatures, attributes and in the instructions of its methods.</summary>
internal static class MemberUses
{
    private const BindingFlags Declared =
        BindingFlags.Public | BindingFlags.NonPublic | BindingFlags.Instance | BindingFlags.Static | BindingFlags.DeclaredOnly;

    private static readonly Dictionary<short, OpCode> OpCodesByValue = typeof(OpCodes)
        .GetFields(BindingFlags.Public | BindingFlags.Static)
        .Select(field => (OpCode)field.GetValue(null)!)
        .ToDictionary(code => code.Value);

    /// <summary>Every type that a type refers to; generic types and arrays are taken apart.</summary>
    public static IReadOnlySet<Type> TypesUsedBy(Type type)
    {
        var uses = new HashSet<Type>();
        Add(uses, type.BaseType);
        foreach (Type used in type.GetInterfaces())
            Add(uses, used);
        foreach (FieldInfo field in type.GetFields(Declared))
            Add(uses, field.FieldType);
        foreach (MethodBase method in MethodsOf(type))
        {
            foreach (ParameterInfo parameter in method.GetParameters())
                Add(uses, parameter.ParameterType);
            if (method is MethodInfo { ReturnType: Type returned })
                Add(uses, returned);
            foreach (LocalVariableInfo local in method.GetMethodBody()?.LocalVariables ?? [])
                Add(uses, local.LocalType);
        }

        foreach (MemberInfo member in MembersUsedBy(type))
        {
            Add(uses, member as Type ?? member.DeclaringType);
            if (member is MethodInfo { IsGenericMethod: true } generic)
            {
                foreach (Type argument in generic.GetGenericArguments())
                    Add(uses, argument);
            }
        }

        return uses;
    }

    /// <summary>Every member that the methods of a type call, read, write or name.</summary>
    public static IEnumerable<MemberInfo> MembersUsedBy(Type type) => MethodsOf(type).SelectMany(MembersUsedBy);

    private static IEnumerable<MethodBase> MethodsOf(Type type) =>
        type.GetMethods(Declared).Concat<MethodBase>(type.GetConstructors(Declared));

    private static IEnumerable<MemberInfo> MembersUsedBy(MethodBase method)
    {
        byte[] code = method.GetMethodBody()?.GetILAsByteArray() ?? [];
        Type[] typeArguments = method.DeclaringType is { IsGenericType: true } owner ? owner.GetGenericArguments() : [];
        Type[] methodArguments = method.IsGenericMethod ? method.GetGenericArguments() : [];
        for (int at = 0; at < code.Length;)
        {
            short value = code[at++];
            if (value == 0xFE)
                value = unchecked((short)(0xFE00 | code[at++]));
            OpCode instruction = OpCodesByValue[value];
            if (instruction.OperandType is OperandType.InlineField or OperandType.InlineMethod or OperandType.InlineTok or OperandType.InlineType)
                yield return method.Module.ResolveMember(BitConverter.ToInt32(code, at), typeArguments, methodArguments)!;
            at += OperandLength(instruction.OperandType, code, at);
        }
    }

    private static int OperandLength(OperandType operand, byte[] code, int at) => operand switch
    {
        OperandType.InlineNone => 0,
        OperandType.ShortInlineBrTarget or OperandType.ShortInlineI or OperandType.ShortInlineVar => 1,
        OperandType.InlineVar => 2,
        OperandType.InlineI8 or OperandType.InlineR => 8,
        OperandType.InlineSwitch => 4 + (4 * BitConverter.ToInt32(code, at)),
        _ => 4,
    };

    private static void Add(HashSet<Type> uses, Type? type)
    {
        if (type is null || type.IsGenericParameter)
            return;
        if (type.HasElementType)
        {
            Add(uses, type.GetElementType());
            return;
        }

        uses.Add(type.IsGenericType ? type.GetGenericTypeDefinition() : type);
        if (type.IsGenericType)
        {
            foreach (Type argument in type.GetGenericArguments())
                Add(uses, argument);
        }
    }
}
