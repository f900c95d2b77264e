-- against ripple-carry-adder n=4: wrong, carry-too-far
library ieee;
use ieee.std_logic_1164.all;
entity ripple is
  port (a, b : in std_logic_vector(3 downto 0); carry_in : in std_logic;
        sum : out std_logic_vector(3 downto 0); carry : out std_logic);
end entity;
architecture places of ripple is
  signal c : std_logic_vector(5 downto 0);
begin
  c(0) <= carry_in;
  c(1) <= '0';
  places : for i in 0 to 3 generate
    sum(i) <= a(i) xor b(i) xor c(i);
    c(i + 2) <= (a(i) and b(i)) or (c(i) and (a(i) or b(i)));
  end generate;
  carry <= c(5);
end architecture;
