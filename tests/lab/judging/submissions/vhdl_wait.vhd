-- against serial-adder n=4: right
library ieee; use ieee.std_logic_1164.all;
entity adder is port (clk, shift, a_in, b_in : in std_logic; sum : out std_logic_vector(3 downto 0); carry : out std_logic); end adder;
architecture a of adder is
  type state is record a, b, s : std_logic_vector(3 downto 0); c : std_logic; end record;
  signal r : state := (a => "0000", b => "0000", s => "0000", c => '0');
begin
  process
  begin
    wait until rising_edge(clk);
    if shift = '1' then
      r.a <= a_in & r.a(3 downto 1);
      r.b <= b_in & r.b(3 downto 1);
      r.s <= (r.a(0) xor r.b(0) xor r.c) & r.s(3 downto 1);
      r.c <= (r.a(0) and r.b(0)) or ((r.a(0) xor r.b(0)) and r.c);
    end if;
  end process;
  sum <= r.s; carry <= r.c;
end a;
